using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Times of each group with how often each occurs, completed and stopped apart.</summary>
internal static class SurvivalQuery
{
    public static Dictionary<string, List<TaskTime>> Times(DuckDBConnection rows, SummaryQuestion question)
    {
        var by = string.Concat(SummaryRows.Columns(question).Select(c => c + ", "));
        var answer = Summarizer.Ask(rows, $"""
            SELECT {by} seconds, outcome = 'completed', count(*) FROM {SummaryRows.Table}
            WHERE outcome IN ('completed', 'stopped-at-cap') AND seconds IS NOT NULL GROUP BY ALL
            """);
        var at = question.By.Length;
        return answer.GroupBy(row => Summarizer.Name(Summarizer.Key(row, question))).ToDictionary(
            g => g.Key, g => g.Select(row => new TaskTime(Summarizer.Number(row[at])!.Value, (bool)row[at + 1]!, Summarizer.Whole(row[at + 2]))).ToList());
    }
}
