using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Sums a hand's trials; never a part of them.</summary>
internal static class TotalScorer
{
    public static HandTotal Sum(TotalDefinition total, Hand hand, HandRole role, IReadOnlyCollection<ScoredTrial> counted)
    {
        var trials = total.Tasks
            .Select(task => (Task: task, Scored: counted.FirstOrDefault(t => t.Trial.Task == task && t.Trial.Hand == hand)))
            .ToList();
        var missing = trials.Where(t => t.Scored?.Trial.Outcome != TrialOutcome.Completed).Select(t => t.Task).ToList();
        return missing.Count > 0
            ? new(total.Id, hand, role, null, [.. missing], null)
            : new(total.Id, hand, role, trials.Sum(t => t.Scored!.Trial.Seconds!.Value), [], NormMean(trials.ConvertAll(t => t.Scored!)));
    }

    // Means of different populations do not add up to the mean of any: all cells come from one set, or there is no mean.
    private static decimal? NormMean(List<ScoredTrial> trials)
    {
        var scores = trials.Select(t => t.Score).OfType<TrialScore>().ToList();
        var sets = scores.Select(s => (s.Norm.NormSetId, s.Norm.NormSetVersion)).Distinct().Count();
        return scores.Count == trials.Count && sets == 1 ? scores.Sum(s => s.Norm.Cell.Mean) : null;
    }
}
