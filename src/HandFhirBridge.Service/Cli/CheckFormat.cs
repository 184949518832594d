namespace HandFhirBridge.Service.Cli;

/// <summary>Form of what <c>check</c> prints.</summary>
internal enum CheckFormat
{
    /// <summary>Sentences for a person.</summary>
    Text,

    /// <summary>One JSON object a session.</summary>
    Json,

    /// <summary>One FHIR OperationOutcome for everything.</summary>
    Outcome,
}
