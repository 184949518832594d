namespace HandFhirBridge.Record.Http;

/// <summary>A body that is well-formed in its format, before anyone looked at it as FHIR.</summary>
internal abstract class WrittenBody
{
    /// <summary>Type of resource it says it is; empty if it does not say.</summary>
    public abstract string Type { get; }

    /// <summary>Reads it strictly: unknown elements, wrong types and impossible values are faults.</summary>
    public abstract CheckedResource Check();

    /// <summary>Takes a Parameters resource apart: the resource in its parameter <c>resource</c>, unread, and the other parameters; null for none.</summary>
    public abstract (WrittenBody? Resource, WrittenBody? Others) Unwrap();
}
