using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>What can be wrong with resources that shall be read back into a session. Reading never guesses: a session is given whole, or not at all.</summary>
public static class ReadingProblems
{
    /// <summary>HFB3201: No report of a session.</summary>
    public static readonly ProblemKind NoReport = new("HFB3201", Severity.Error, "not-found", 404, true,
        "No report of a session", "Ask the record for the report together with all that it refers to.");

    /// <summary>HFB3202: Reports of several sessions.</summary>
    public static readonly ProblemKind SeveralReports = Error("HFB3202", "multiple-matches",
        "Reports of several sessions", "Read the resources of one session at a time; remove a report that stands twice in the record.");

    /// <summary>HFB3203: Resource missing.</summary>
    public static readonly ProblemKind ResourceMissing = new("HFB3203", Severity.Error, "not-found", 502, true,
        "Resource missing", "Fetch the resource too; if the record has lost it, submit the session again.");

    /// <summary>HFB3204: Copies of a resource differ.</summary>
    public static readonly ProblemKind CopiesDiffer = Error("HFB3204", "duplicate",
        "Copies of a resource differ", "Keep the copy that the report refers to and remove the other from the record.");

    /// <summary>HFB3205: Element missing.</summary>
    public static readonly ProblemKind ElementMissing = Error("HFB3205", "required",
        "Element missing", "Submit the session again, or restore the element in the record.");

    /// <summary>HFB3206: Value not understood.</summary>
    public static readonly ProblemKind NotUnderstood = Error("HFB3206", "value",
        "Value not understood", "Correct the value in the record, or read it with the version of this software that wrote it.");

    /// <summary>HFB3207: Record contradicts itself.</summary>
    public static readonly ProblemKind Contradiction = Error("HFB3207", "conflict",
        "Record contradicts itself", "Compare with the session document and submit the session again.");

    /// <summary>HFB3208: Session withdrawn.</summary>
    public static readonly ProblemKind Withdrawn = new("HFB3208", Severity.Error, "deleted", 410, false,
        "Session withdrawn", "Do not use these results; they were entered in error.");

    /// <summary>HFB3209: Result not final.</summary>
    public static readonly ProblemKind NotFinal = Error("HFB3209", "business-rule",
        "Result not final", "Wait until the record holds the final result, or submit the session again.");

    /// <summary>HFB3210: Session that would not be accepted.</summary>
    public static readonly ProblemKind NotAcceptable = Error("HFB3210", "business-rule",
        "Session that would not be accepted", "Compare the record with the session document; somebody changed it.");

    /// <summary>HFB3211: Instrument not known.</summary>
    public static readonly ProblemKind UnknownInstrument = Error("HFB3211", "not-supported",
        "Instrument not known", "Read it with a version of this software that has the instrument's definition.");

    /// <summary>HFB3212: Modifier not understood.</summary>
    public static readonly ProblemKind ModifierNotUnderstood = Error("HFB3212", "extension",
        "Modifier not understood", "Ask whoever added it what it changes; R4 forbids to ignore it.");

    /// <summary>Every kind, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ReadingProblems));

    // 502: the record, not the caller, gave what cannot be read.
    private static ProblemKind Error(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 502, false, title, remedy);
}
