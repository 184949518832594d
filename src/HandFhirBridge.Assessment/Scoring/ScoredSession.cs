using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>A session with all its scores: what is mapped, and what reading back gives again.</summary>
/// <param name="Session">The session as it happened.</param>
/// <param name="Trials">Every attempt, in run order.</param>
/// <param name="Totals">Each total of the instrument for each hand, left before right within a total.</param>
/// <param name="Differences">One per task in standard order, then one per total.</param>
/// <param name="OrderDeparted">True if the counted trials that ran (completed, stopped or void) did not run in the instrument's order of tasks and hands; a trial repeated after others counts where it was repeated.</param>
public sealed record ScoredSession(
    Session Session,
    ImmutableArray<ScoredTrial> Trials,
    ImmutableArray<HandTotal> Totals,
    ImmutableArray<HandDifference> Differences,
    bool OrderDeparted)
{
    /// <summary>True if any norm shown is from memory; everything made of the session must then say DEMONSTRATION.</summary>
    public bool Demonstration => Trials.Any(t => t.Norms.Any(n => n.DemonstrationOnly));

    /// <summary>The attempts that count, in run order: at most one per task and hand.</summary>
    public IEnumerable<ScoredTrial> Counted => Trials.Where(t => t.Trial.Counted);
}
