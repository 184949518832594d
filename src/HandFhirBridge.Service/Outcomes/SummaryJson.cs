using HandFhirBridge.Outcomes.Summaries;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>A summary as JSON: what was asked, rows as objects of the columns' names, and what to know beside them.</summary>
internal static class SummaryJson
{
    public static object Of(OutcomeSummary summary) => new
    {
        By = summary.Question.By.Select(SummaryAsking.NameOf),
        Where = summary.Question.Where.ToDictionary(w => SummaryAsking.NameOf(w.Key), w => w.Value),
        summary.Question.SmallestGroup,
        summary.HeldBack,
        summary.LeftOut,
        summary.Sources,
        summary.Norms,
        summary.Thresholds,
        summary.Demonstration,
        summary.Difference,
        Groups = Objects(SummaryTables.GroupColumns(summary.Question), SummaryTables.Groups(summary)),
        Changes = Objects(SummaryTables.ChangeColumns(summary.Question), SummaryTables.Changes(summary)),
        Notes = SummaryTables.Notes(summary),
    };

    private static IEnumerable<Dictionary<string, object>> Objects(IReadOnlyList<string> columns, IEnumerable<object?[]> rows) => rows.Select(row =>
        columns.Zip(row).Where(c => c.Second is not null).ToDictionary(c => c.First, c => c.Second!, StringComparer.Ordinal));
}
