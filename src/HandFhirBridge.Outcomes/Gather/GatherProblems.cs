using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Gather;

/// <summary>Why a source could not be gathered, HFB72xx. Other sources go on; what was gathered before stays.</summary>
public static class GatherProblems
{
    /// <summary>HFB7201: Source not reached.</summary>
    public static readonly ProblemKind NotReached = new("HFB7201", Severity.Error, "transient", 502, true,
        "Source not reached", "Check the address, the sign-in and the network between, and gather again; it goes on where it stopped.");

    /// <summary>HFB7202: Source refused.</summary>
    public static readonly ProblemKind Refused = new("HFB7202", Severity.Error, "forbidden", 502, false,
        "Source refused", "Have its administrator allow this client to read Observation, DiagnosticReport, Patient and Condition.");

    /// <summary>HFB7203: Answer not understood.</summary>
    public static readonly ProblemKind NotUnderstood = new("HFB7203", Severity.Error, "structure", 502, false,
        "Answer not understood", "Check that the address is the base of a FHIR R4 server.");

    /// <summary>HFB7204: Pages without end.</summary>
    public static readonly ProblemKind PagesWithoutEnd = new("HFB7204", Severity.Error, "incomplete", 502, false,
        "Pages without end", "Tell the server's administrator: its next link leads to a page that was read already.");

    /// <summary>HFB7205: Link to another server.</summary>
    public static readonly ProblemKind LinkElsewhere = new("HFB7205", Severity.Error, "security", 502, false,
        "Link to another server", "Set the target's BaseUrl to the address the server gives in its own links; a token is sent nowhere else.");

    /// <summary>HFB7206: Export failed.</summary>
    public static readonly ProblemKind ExportFailed = new("HFB7206", Severity.Error, "processing", 502, true,
        "Export failed", "Gather again; if it fails again, gather with --search.");

    /// <summary>HFB7207: Gathering already at work.</summary>
    public static readonly ProblemKind AtWork = new("HFB7207", Severity.Error, "lock-error", 409, true,
        "Gathering already at work", "Wait until the other gathering has ended.");

    /// <summary>HFB7208: State unreadable.</summary>
    public static readonly ProblemKind StateUnreadable = new("HFB7208", Severity.Error, "structure", 500, false,
        "State unreadable", "Gather the source anew with --full.");

    /// <summary>All of them, in the order of their codes.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(GatherProblems));
}
