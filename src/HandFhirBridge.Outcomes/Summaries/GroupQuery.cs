using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Counts and descriptions of each group.</summary>
internal static class GroupQuery
{
    private const string Completed = "FILTER (outcome = 'completed')";

    public static IEnumerable<SummaryGroup> Of(DuckDBConnection rows, SummaryQuestion question)
    {
        var by = string.Concat(SummaryRows.Columns(question).Select(c => c + ", "));
        // quantile_cont is linear between order statistics, as R's type 7.
        var answer = Summarizer.Ask(rows, $"""
            SELECT {by} count(DISTINCT person), count(*), count(*) FILTER (outcome = 'stopped-at-cap'), count(*) FILTER (outcome NOT IN ('completed', 'stopped-at-cap')),
                count(*) {Completed}, avg(seconds) {Completed}, stddev_samp(seconds) {Completed}, quantile_cont(seconds, [0.5, 0.25, 0.75]) {Completed},
                count(z), avg(z), stddev_samp(z), quantile_cont(z, [0.5, 0.25, 0.75]), coalesce(min(norm) <> max(norm), false)
            FROM {SummaryRows.Table} {(by.Length == 0 ? "" : "GROUP BY " + by.TrimEnd(',', ' ') + " ORDER BY " + by.TrimEnd(',', ' '))}
            """);
        foreach (var row in answer)
        {
            var at = question.By.Length;
            var unlike = (bool)row[at + 12]!;
            if (Summarizer.Whole(row[at + 1]) > 0)
            {
                yield return new(
                    Summarizer.Key(row, question), Summarizer.Whole(row[at]), Summarizer.Whole(row[at + 1]), Summarizer.Whole(row[at + 2]), Summarizer.Whole(row[at + 3]),
                    Described(row, at + 4), null, unlike ? null : Described(row, at + 8), unlike, []);
            }
        }
    }

    private static Description? Described(object?[] row, int at) =>
        Summarizer.Whole(row[at]) is > 0 and var n && row[at + 3] is object?[] quantiles
            ? new(n, Summarizer.Number(row[at + 1])!.Value, Summarizer.Number(row[at + 2]), Summarizer.Number(quantiles[0])!.Value, Summarizer.Number(quantiles[1])!.Value, Summarizer.Number(quantiles[2])!.Value)
            : null;
}
