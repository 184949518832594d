namespace HandFhirBridge.Record.Http;

/// <summary>What a client wants back from a write.</summary>
internal enum ReturnPreference
{
    /// <summary>Nothing said: single writes return the resource, bundles do not.</summary>
    Unsaid,

    /// <summary>No body.</summary>
    Minimal,

    /// <summary>The resource as stored.</summary>
    Representation,

    /// <summary>An outcome in words.</summary>
    OperationOutcome,
}
