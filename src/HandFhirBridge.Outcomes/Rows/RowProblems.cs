using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>What can be wrong with rows and questions to them, HFB71xx.</summary>
public static class RowProblems
{
    /// <summary>HFB7101: Nothing gathered.</summary>
    public static readonly ProblemKind NothingGathered = new("HFB7101", Severity.Error, "not-found", 404, false,
        "Nothing gathered", "Gather first: gather.");

    /// <summary>HFB7102: Gathered line unreadable.</summary>
    public static readonly ProblemKind LineUnreadable = new("HFB7102", Severity.Error, "structure", 422, false,
        "Gathered line unreadable", "Gather the source anew with --full.");

    /// <summary>HFB7103: Value too long for its column.</summary>
    public static readonly ProblemKind NumberDoesNotFit = new("HFB7103", Severity.Error, "value", 422, false,
        "Value too long for its column", "Give the column of the view a wider type with the tag ansi/type.");

    /// <summary>HFB7104: SQL refused.</summary>
    public static readonly ProblemKind SqlRefused = new("HFB7104", Severity.Error, "invalid", 400, false,
        "SQL refused", "Correct the statement; the tables are those of the views.");

    /// <summary>HFB7105: No such view.</summary>
    public static readonly ProblemKind NoSuchView = new("HFB7105", Severity.Error, "not-found", 404, false,
        "No such view", "Name one of the views there are.");

    /// <summary>HFB7106: Rows are being made.</summary>
    public static readonly ProblemKind AtWork = new("HFB7106", Severity.Error, "lock-error", 409, true,
        "Rows are being made", "Wait until the other process has made them.");

    /// <summary>All of them, in the order of their codes.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(RowProblems));
}
