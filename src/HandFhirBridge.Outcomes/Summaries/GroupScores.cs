using System.Collections.Immutable;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>z of a group's trials that rest on one norm, each value once with how often it occurs.</summary>
/// <param name="Group">Name of the group.</param>
/// <param name="Norm">Set, version and evidence.</param>
/// <param name="Values">Ascending.</param>
/// <param name="Demonstration">True for a norm that is for demonstration only.</param>
internal sealed record GroupScores(string Group, string Norm, ImmutableArray<(double Value, int Count)> Values, bool Demonstration)
{
    /// <summary>The norm in words: <c>set version (evidence)</c>.</summary>
    public string NormInWords => Norm.Split(CountedTrials.PartOfNorm) is [var set, var version, var evidence] ? $"{set} {version} ({evidence})" : Norm;

    public static List<GroupScores> Of(DuckDBConnection rows, SummaryQuestion question)
    {
        var by = SummaryRows.Columns(question);
        var answer = Summarizer.Ask(rows, $"""
            WITH counted AS (SELECT {by} norm, z, coalesce(bool_or(norm_demonstration), false) AS demonstration, count(*) AS n FROM {SummaryRows.Table} WHERE z IS NOT NULL GROUP BY ALL)
            SELECT {by} norm, list(z), list(n), bool_or(demonstration) FROM counted GROUP BY ALL
            """);
        var at = question.By.Length;
        return [.. answer.Select(row => new GroupScores(
            Summarizer.Name(Summarizer.Key(row, question)), (string)row[at]!, Summarizer.Counted(row[at + 1], row[at + 2]), (bool)row[at + 3]!))];
    }
}
