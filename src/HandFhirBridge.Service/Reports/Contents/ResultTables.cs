using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Task by hand: time, norm, score and judgement; then totals and the difference between the hands.</summary>
internal static class ResultTables
{
    private static readonly ImmutableArray<Column> Columns =
    [
        new("Task", 2.6), new("Time", 1.3, true), new("Norm mean (SD)", 1.6, true), new("z", 0.8, true), new("% of mean", 1, true), new("Judgement", 2.6),
    ];

    public static IEnumerable<ReportBlock> Of(SessionReport report)
    {
        foreach (var hand in report.Rows.GroupBy(r => (r.Hand, r.Role)).OrderBy(g => g.Key.Hand))
        {
            yield return new Table(
                $"{Phrases.Hand(hand.Key.Hand, hand.Key.Role)}; z: SDs from the norm mean, positive is slower",
                Columns,
                [.. hand.Select(r => Line(r, report.SexForNorm)), .. report.Totals.Where(t => t.Hand == hand.Key.Hand).Select(t => Line(t, report))]);
        }

        if (!report.Differences.IsEmpty)
        {
            yield return new Table(
                "Difference between the hands: non-dominant minus dominant",
                [new("Task or total", 2), new("Seconds", 1, true)],
                [.. report.Differences.Select(d => new Row([Subject(report, d.Subject), Phrases.Signed(d.Seconds) + " s"]))]);
        }
    }

    private static Row Line(ReportRow row, SexForNorm sex) => new(
        [
            row.Title,
            Phrases.Result(row),
            Phrases.Norm(row, sex),
            row.Z is { } z ? Phrases.Signed(z) : "none",
            row.PercentOfMean is { } percent ? PlainWords.Percent(percent) : "none",
            Phrases.Judgement(row) + (row.Departures.IsEmpty ? "" : "; not standard, see conditions"),
        ],
        row.Judgement == Assessment.Scoring.Judgement.Slow || row.Outcome != TrialOutcome.Completed);

    private static Row Line(ReportTotal total, SessionReport report) => new(
        [
            Phrases.Total(total.Total),
            total.Seconds is { } seconds ? PlainWords.Seconds(seconds) : "no total",
            total.NormMean is { } mean ? $"{PlainWords.Seconds(mean)} (none)" : "none",
            "none",
            "none",
            total.Seconds is null
                ? $"no total: {PlainWords.List([.. total.MissingTasks.Select(t => PlainWords.Lower(Title(report, t)))])} not completed"
                : "not judged: no SD of totals",
        ]);

    private static string Subject(SessionReport report, string id) =>
        report.Rows.Any(r => r.Task == id) ? Title(report, id) : Phrases.Total(id);

    private static string Title(SessionReport report, string task) => report.Rows.First(r => r.Task == task).Title;
}
