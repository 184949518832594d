using System.Collections.Immutable;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>What is asked of the gathered results.</summary>
/// <param name="By">Results are told apart by these, in this order; none gives one group.</param>
/// <param name="Where">Only results with these values.</param>
public sealed record SummaryQuestion(ImmutableArray<SummaryDimension> By, ImmutableSortedDictionary<SummaryDimension, string> Where)
{
    /// <summary>Fewest persons a group may have: figures of a smaller one are held back, as they could be told to be somebody's.</summary>
    public const int DefaultSmallestGroup = 5;

    /// <summary>Fewest persons of a group that is shown; at least 1.</summary>
    public int SmallestGroup { get; init; } = DefaultSmallestGroup;

    /// <summary>Measurement errors that change is held against; without one for a task and hand role no share is given.</summary>
    public ImmutableArray<ChangeThreshold> Thresholds { get; init; } = [];
}
