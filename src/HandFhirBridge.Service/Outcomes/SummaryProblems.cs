using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>What can be wrong with a question about outcomes. Codes HFB7301 to HFB7399.</summary>
public static class SummaryProblems
{
    /// <summary>HFB7301: Results cannot be told apart by this.</summary>
    public static readonly ProblemKind NoSuchDimension = new("HFB7301", Severity.Error, "value", 400, false, "Results cannot be told apart by this", "Name one of the dimensions listed.");

    /// <summary>HFB7302: Filter without a value.</summary>
    public static readonly ProblemKind FilterWithoutValue = new("HFB7302", Severity.Error, "value", 400, false, "Filter without a value", "Write it as NAME=VALUE, such as task=writing.");

    /// <summary>HFB7303: Smallest group below 1.</summary>
    public static readonly ProblemKind SmallestGroupTooSmall = new("HFB7303", Severity.Error, "value", 400, false, "Smallest group below 1", "Write a whole number from 1; 5 is usual.");

    /// <summary>Every kind, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(SummaryProblems));
}
