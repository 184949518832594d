using System.Collections.Immutable;
using System.Globalization;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Answers questions about gathered results. Sums, spreads and quantiles are the engine's; survival is estimated here from its counts.</summary>
public static class Summarizer
{
    /// <summary>Answers a question.</summary>
    /// <param name="rows">The gathered rows, open.</param>
    /// <param name="question">What is asked.</param>
    /// <exception cref="RowException">The rows cannot be read.</exception>
    public static OutcomeSummary Answer(DuckDBConnection rows, SummaryQuestion question)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(question);
        CountedTrials.Ensure(rows);
        RowTable.Execute(rows, SummaryRows.Create(question));
        var times = GroupTimes.Of(rows, question);
        var scores = GroupScores.Of(rows, question);
        var changes = ChangeQuery.Of(rows, question);
        var all = GroupQuery.Of(rows, question, times, scores.ToLookup(s => s.Group))
            .Select(g => g with { Changes = changes.GetValueOrDefault(Name(g.Key), []) }).ToList();
        var shown = SmallGroups.Without(all, question.SmallestGroup);
        return new(
            question,
            [.. shown],
            all.Count - shown.Count,
            Difference(question, shown, times),
            [.. Ask(rows, $"SELECT DISTINCT source FROM {SummaryRows.Table} ORDER BY ALL").Select(r => r[0]).OfType<string>()],
            [.. scores.Select(s => s.NormInWords).Distinct().Order(StringComparer.Ordinal)],
            [.. question.Thresholds.Select(t => string.Create(CultureInfo.InvariantCulture, $"{t.Task}{(t.HandRole is { } role ? $", {role} hand" : "")}: {t.Seconds} s ({t.Source})"))],
            scores.Any(s => s.Demonstration));
    }

    /// <summary>One name of a group's values.</summary>
    internal static string Name(IEnumerable<string> key) => string.Join('\u001f', key);

    internal static List<object?[]> Ask(DuckDBConnection rows, string sql)
    {
        using var answer = SqlAnswer.Ask(rows, sql);
        return [.. answer.Rows()];
    }

    /// <summary>The values a row begins with.</summary>
    internal static ImmutableArray<string> Key(object?[] row, SummaryQuestion question) =>
        [.. row.Take(question.By.Length).Select(v => v as string ?? "unknown")];

    internal static int Whole(object? value) => Convert.ToInt32(value, CultureInfo.InvariantCulture);

    internal static double? Number(object? value) => value is null ? null : Convert.ToDouble(value, CultureInfo.InvariantCulture);

    /// <summary>Values with their counts of two lists that stand side by side, ascending.</summary>
    internal static ImmutableArray<(double Value, int Count)> Counted(object? values, object? counts) => values is object?[] all && counts is object?[] often
        ? [.. all.Zip(often, (value, count) => (Value: (double)value!, Count: Whole(count))).OrderBy(v => v.Value)]
        : [];

    // Different tasks take different times; comparing them would say nothing.
    private static LogRank? Difference(SummaryQuestion question, IEnumerable<SummaryGroup> shown, Dictionary<string, GroupTimes> times) =>
        question.By is [not SummaryDimension.Task and not SummaryDimension.Condition] && question.Where.ContainsKey(SummaryDimension.Task)
            ? LogRank.Of([.. shown.Select(g => times[Name(g.Key)].Times)])
            : null;
}
