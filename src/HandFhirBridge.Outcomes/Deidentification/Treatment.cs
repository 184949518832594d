namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What is done with a primitive value, or an object that is looked at as a whole.</summary>
internal enum Treatment
{
    /// <summary>An object: of its elements those named are looked at, all others removed.</summary>
    Elements,

    /// <summary>A code that FHIR or we fix, such as a status: kept if it is one word of letters, or a comparator.</summary>
    Word,

    /// <summary>The code of a coding: kept if it is short and in one piece.</summary>
    Code,

    /// <summary>A code system: kept if it is one that everybody uses, or ours; a clinic's own would name the clinic.</summary>
    System,

    /// <summary>A number, with the digits it was written with.</summary>
    Number,

    /// <summary>True or false.</summary>
    Truth,

    /// <summary>A date of a patient, of birth as of anything else.</summary>
    Date,

    /// <summary>The resource's own id: a pseudonym takes its place.</summary>
    Id,

    /// <summary>The text of a literal reference: a pseudonym takes the id's place, and the server's address goes.</summary>
    Reference,

    /// <summary>An identifier: only one of ours is kept, with pseudonyms of clinic and session.</summary>
    Identifier,

    /// <summary>An extension: only those of ours that hold codes, numbers or references.</summary>
    Extension,

    /// <summary>A span of ages.</summary>
    Ages,

    /// <summary>A coding: nothing is left of one whose system is not known.</summary>
    Coding,
}
