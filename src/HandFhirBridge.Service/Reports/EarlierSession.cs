namespace HandFhirBridge.Service.Reports;

/// <summary>Whether there is an earlier session to compare with.</summary>
public enum EarlierSession
{
    /// <summary>Nobody looked: the report was made without reading the record.</summary>
    NotLookedFor,

    /// <summary>The record could not be read.</summary>
    NotReadable,

    /// <summary>The record holds none that can be compared.</summary>
    None,

    /// <summary>One was found; the changes are since it.</summary>
    Compared,
}
