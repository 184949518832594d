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
        RowTable.Execute(rows, $"DROP TABLE IF EXISTS {SummaryRows.Table}");
        Ask(rows, SummaryRows.Create(question));
        var survival = SurvivalQuery.Times(rows, question);
        var changes = ChangeQuery.Of(rows, question);
        var all = GroupQuery.Of(rows, question)
            .Select(g => g with
            {
                Survival = survival.TryGetValue(Name(g.Key), out var times) ? KaplanMeier.Of(times) : null,
                Changes = changes.GetValueOrDefault(Name(g.Key), []),
            })
            .ToList();
        var shown = SmallGroups.Without(all, question.SmallestGroup);
        return new(
            question,
            [.. shown],
            all.Count - shown.Count,
            Difference(question, shown, survival),
            [.. Texts(rows, $"SELECT DISTINCT source FROM {SummaryRows.Table} ORDER BY ALL")],
            [.. Texts(rows, $"SELECT norm_set || ' ' || norm_version || ' (' || norm_evidence || ')' FROM (SELECT DISTINCT norm_set, norm_version, norm_evidence FROM trials WHERE z IS NOT NULL) WHERE {SummaryRows.Norm()} IN (SELECT DISTINCT norm FROM {SummaryRows.Table}) ORDER BY ALL")],
            [.. question.Thresholds.Select(t => string.Create(CultureInfo.InvariantCulture, $"{t.Task}{(t.HandRole is { } role ? $", {role} hand" : "")}: {t.Seconds} s ({t.Source})"))],
            Texts(rows, $"SELECT 'yes' FROM {SummaryRows.Table} WHERE z IS NOT NULL AND norm_demonstration LIMIT 1").Any());
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

    // Different tasks take different times; comparing them would say nothing.
    private static LogRank? Difference(SummaryQuestion question, IEnumerable<SummaryGroup> shown, Dictionary<string, List<TaskTime>> survival) =>
        question.By is [not SummaryDimension.Task and not SummaryDimension.Condition] && question.Where.ContainsKey(SummaryDimension.Task)
            ? LogRank.Of([.. shown.Select(g => survival.GetValueOrDefault(Name(g.Key), []))])
            : null;

    private static IEnumerable<string> Texts(DuckDBConnection rows, string sql) => Ask(rows, sql).Select(r => r[0]).OfType<string>();
}
