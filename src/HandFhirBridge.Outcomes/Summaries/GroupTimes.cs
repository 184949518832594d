using System.Collections.Immutable;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Trials of a group by how they ended, with how often each time occurs.</summary>
/// <param name="Key">The group's values.</param>
/// <param name="Trials">All of them.</param>
/// <param name="Stopped">Of them stopped.</param>
/// <param name="Completed">Of them completed.</param>
/// <param name="Times">Times of the completed and stopped ones, ascending within each.</param>
internal sealed record GroupTimes(ImmutableArray<string> Key, int Trials, int Stopped, int Completed, ImmutableArray<TaskTime> Times)
{
    // Each time once with its count: from these follow counts, means, quantiles and survival, for all of which the trials are read once.
    public static Dictionary<string, GroupTimes> Of(DuckDBConnection rows, SummaryQuestion question)
    {
        var by = SummaryRows.Columns(question);
        var answer = Summarizer.Ask(rows, $"""
            WITH counted AS (SELECT {by} outcome, seconds, count(*) AS n FROM {SummaryRows.Table} GROUP BY ALL)
            SELECT {by} outcome, CAST(sum(n) AS BIGINT), list(seconds) FILTER (seconds IS NOT NULL), list(n) FILTER (seconds IS NOT NULL) FROM counted GROUP BY ALL ORDER BY ALL
            """);
        var at = question.By.Length;
        return answer.GroupBy(row => Summarizer.Name(Summarizer.Key(row, question))).ToDictionary(g => g.Key, g =>
        {
            int Count(string outcome) => g.Where(row => row[at] as string == outcome).Sum(row => Summarizer.Whole(row[at + 1]));
            return new GroupTimes(Summarizer.Key(g.First(), question), g.Sum(row => Summarizer.Whole(row[at + 1])), Count("stopped-at-cap"), Count("completed"), [.. g.SelectMany(row => TimesOf(row, at))]);
        });
    }

    private static IEnumerable<TaskTime> TimesOf(object?[] row, int at) => row[at] is "completed" or "stopped-at-cap"
        ? Summarizer.Counted(row[at + 2], row[at + 3]).Select(t => new TaskTime(t.Value, row[at] is "completed", t.Count))
        : [];
}
