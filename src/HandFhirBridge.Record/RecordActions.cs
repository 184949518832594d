namespace HandFhirBridge.Record;

/// <summary>What a request to the record does with what is in it.</summary>
[Flags]
public enum RecordActions
{
    /// <summary>Neither; the CapabilityStatement.</summary>
    None = 0,

    /// <summary>Gives resources out, or says whether there are some.</summary>
    Read = 1,

    /// <summary>Changes resources.</summary>
    Write = 2,

    /// <summary>Gives out everything there is of many patients at once.</summary>
    Export = 4,
}
