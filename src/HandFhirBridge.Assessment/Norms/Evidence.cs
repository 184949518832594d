namespace HandFhirBridge.Assessment.Norms;

/// <summary>How a norm was obtained, from strongest to weakest. Carried to every place where the norm is shown.</summary>
public enum Evidence
{
    /// <summary>Typed from the source by two people of the site, agreeing cell by cell.</summary>
    SiteDoubleEntry,

    /// <summary>Read in one reprint.</summary>
    OneReprintRead,

    /// <summary>Read in the abstract of the source.</summary>
    AbstractRead,

    /// <summary>From memory, no copy read: demonstration only.</summary>
    Recalled,
}
