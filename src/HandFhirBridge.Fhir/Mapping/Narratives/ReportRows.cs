using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Rows of the tables of a report.</summary>
internal static class ReportRows
{
    public static readonly string[] TrialHeadings = ["Task", "Hand", "Result", "Norm", "z (positive is slower)", "Percent of norm mean", "Judgement", "Departures and notes"];

    /// <summary>Counted trials, tasks in standard order, left before right.</summary>
    public static IEnumerable<string[]> Trials(SessionContext context) =>
        from task in context.Instrument.Tasks
        from hand in Enum.GetValues<Hand>()
        select Trial(context, context.Counted(task.Id, hand));

    /// <summary>Attempts that do not count, as they ran.</summary>
    public static IEnumerable<string[]> Uncounted(SessionContext context) =>
        from scored in context.Scored.Trials
        where !scored.Trial.Counted
        select new[]
        {
            context.Words.Task(scored.Trial.Task), PlainWords.Upper(Wording.Hand(scored.Trial.Hand, scored.Role)),
            Wording.Result(scored.Trial), Remarks(context, scored.Trial),
        };

    public static IEnumerable<string[]> Totals(SessionContext context) =>
        from total in context.Scored.Totals
        select new[]
        {
            Displays.Total(total.TotalId), PlainWords.Upper(Wording.Hand(total.Hand, total.Role)), TotalWording.Result(context, total),
            total.NormMean is { } mean ? TotalWording.NormMean(context, total, mean) : "none",
        };

    /// <summary>Differences between the hands that exist.</summary>
    public static IEnumerable<string[]> Differences(SessionContext context) =>
        from difference in context.Scored.Differences
        where difference.Seconds is not null
        select new[] { Subject(context, difference.Subject), PlainWords.Seconds(difference.Seconds!.Value) };

    private static string[] Trial(SessionContext context, ScoredTrial scored) =>
    [
        context.Words.Task(scored.Trial.Task),
        PlainWords.Upper(Wording.Hand(scored.Trial.Hand, scored.Role)),
        Wording.Result(scored.Trial),
        scored.Norms.IsEmpty ? "none" : string.Join(" ", scored.Norms.Select(NormWording.Sentence)),
        scored.Score is { } score ? Wording.ZScore(score.Z) : "none",
        scored.Score is { } percent ? PlainWords.Percent(percent.PercentOfMean) : "none",
        scored.Score is { } judged ? NormWording.Judgement(judged) : NormWording.WhyNotJudged(scored.WhyNotJudged!.Value),
        Remarks(context, scored.Trial),
    ];

    private static string Remarks(SessionContext context, Trial trial) =>
        string.Join("; ", new[] { Wording.Departures(context.Words, trial), trial.Note ?? "" }.Where(text => text.Length > 0));

    private static string Subject(SessionContext context, string subject) =>
        context.Instrument.FindTask(subject)?.Title ?? Displays.Total(subject);
}
