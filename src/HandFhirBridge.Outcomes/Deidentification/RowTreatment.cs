namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What is done with the cells of a column.</summary>
internal enum RowTreatment
{
    /// <summary>Number, truth or code: kept if a text is one word.</summary>
    Plain,

    /// <summary>Where it was gathered: a pseudonym.</summary>
    Source,

    /// <summary>Key of a resource: a pseudonym.</summary>
    Key,

    /// <summary>Norm sets: a pseudonym for one that a site typed.</summary>
    NormSet,

    /// <summary>Versions of norm sets.</summary>
    NormVersion,

    /// <summary>The clinic: a pseudonym.</summary>
    Site,

    /// <summary>The session: a pseudonym.</summary>
    Session,

    /// <summary>A date of the patient.</summary>
    Date,

    /// <summary>The date of birth.</summary>
    BirthDate,

    /// <summary>A code system that everybody uses.</summary>
    System,

    /// <summary>A code of such a system.</summary>
    CodeOfSystem,
}
