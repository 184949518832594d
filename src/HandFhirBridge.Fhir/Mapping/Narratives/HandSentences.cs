using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>What the conclusion says of one hand: slow tasks, what could not be judged, what was not completed, totals.</summary>
internal static class HandSentences
{
    public static IEnumerable<string> Of(SessionContext context, Hand hand)
    {
        List<ScoredTrial> trials = [.. context.Instrument.Tasks.Select(task => context.Counted(task.Id, hand))];
        var name = PlainWords.Upper(Wording.Hand(hand, context.Session.Dominance.RoleOf(hand)));
        yield return PlainWords.Sentence($"{name}: {string.Join("; ", Clauses(context, trials))}");
        yield return $"{PlainWords.Upper(WireName.Of(hand))} hand, totals: {string.Join("; ", context.Scored.Totals.Where(t => t.Hand == hand).Select(t => Total(context, t)))}.";
    }

    private static IEnumerable<string> Clauses(SessionContext context, List<ScoredTrial> trials)
    {
        var slow = trials.Where(t => t.Score?.Judgement == Judgement.Slow).ToList();
        var within = trials.Where(t => t.Score?.Judgement == Judgement.WithinNorm).ToList();
        if (slow.Count > 0)
        {
            yield return $"slower than the norm mean by more than 2 SD in {PlainWords.List(slow.ConvertAll(t => Slow(context, t)))}";
        }

        if (within.Count > 0)
        {
            yield return $"within 2 SD of the norm mean in {PlainWords.List(within.ConvertAll(t => Task(context, t)))}";
        }

        foreach (var group in trials.Where(t => t.Trial.Outcome == TrialOutcome.Completed && t.Score is null).GroupBy(t => t.WhyNotJudged!.Value))
        {
            yield return $"{PlainWords.List([.. group.Select(t => Task(context, t))])} {NormWording.WhyNotJudged(group.Key)}";
        }

        foreach (var trial in trials.Where(t => t.Trial.Outcome != TrialOutcome.Completed))
        {
            yield return $"{Task(context, trial)} not completed, {Wording.Result(trial.Trial)}";
        }
    }

    private static string Slow(SessionContext context, ScoredTrial scored) =>
        $"{Task(context, scored)} ({PlainWords.Seconds(scored.Trial.Seconds!.Value)}, z {Wording.ZScore(scored.Score!.Z)})";

    private static string Task(SessionContext context, ScoredTrial scored) => Wording.Task(context.Words, scored.Trial.Task);

    private static string Total(SessionContext context, HandTotal total)
    {
        var name = PlainWords.Lower(Displays.Total(total.TotalId));
        return total.Seconds is { } seconds
            ? $"{name} {PlainWords.Seconds(seconds)}"
            : $"no {name}, as {PlainWords.List([.. total.MissingTasks.Select(task => Wording.Task(context.Words, task))])} not completed";
    }
}
