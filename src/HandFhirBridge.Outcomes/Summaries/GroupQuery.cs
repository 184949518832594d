using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Counts and descriptions of each group, in order of their names.</summary>
internal static class GroupQuery
{
    public static IEnumerable<SummaryGroup> Of(DuckDBConnection rows, SummaryQuestion question, Dictionary<string, GroupTimes> times, ILookup<string, GroupScores> scores)
    {
        var answer = Summarizer.Ask(rows, $"SELECT {SummaryRows.Columns(question)} count(DISTINCT person) FROM {SummaryRows.Table} GROUP BY ALL ORDER BY ALL");
        foreach (var row in answer)
        {
            var key = Summarizer.Key(row, question);
            if (times.GetValueOrDefault(Summarizer.Name(key)) is { } group)
            {
                var norms = scores[Summarizer.Name(key)].ToList();
                yield return new(
                    key, Summarizer.Whole(row[question.By.Length]), group.Trials, group.Stopped, group.Trials - group.Stopped - group.Completed,
                    Description.OfCounts([.. group.Times.Where(t => t.Finished).Select(t => (t.Seconds, t.Count))]), KaplanMeier.Of(group.Times),
                    norms.Count == 1 ? Description.OfCounts(norms[0].Values) : null, norms.Count > 1, []);
            }
        }
    }
}
