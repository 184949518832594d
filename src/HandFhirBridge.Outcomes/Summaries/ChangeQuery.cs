using System.Collections.Immutable;
using System.Globalization;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Change of each group: every person's first trial of a task with a hand beside a later one. Groups that are themselves told apart by time have none.</summary>
internal static class ChangeQuery
{
    // Which later session, in what days, and which of them if there are several.
    private static readonly (string Until, string Days, string Pick)[] Later =
        [("6 weeks", Within(6), "arg_min_null"), ("12 weeks", Within(12), "arg_min_null"), ("last", "days > 0", "arg_max_null")];

    public static Dictionary<string, ImmutableArray<SummaryChange>> Of(DuckDBConnection rows, SummaryQuestion question)
    {
        // Told apart by what may be otherwise at the next session, a person's trials would not stand side by side.
        if (question.By.Concat(question.Where.Keys).Any(d => d is SummaryDimension.Interval or SummaryDimension.AgeBand))
        {
            return [];
        }

        var found = new Dictionary<string, List<SummaryChange>>(StringComparer.Ordinal);
        foreach (var row in Summarizer.Ask(rows, Sql(question)))
        {
            var key = Summarizer.Name(Summarizer.Key(row, question));
            if (Change(row, question) is { } change)
            {
                (found.TryGetValue(key, out var list) ? list : found[key] = []).Add(change);
            }
        }

        return found.ToDictionary(f => f.Key, f => f.Value.ToImmutableArray());
    }

    private static string Sql(SummaryQuestion question)
    {
        var by = string.Concat(SummaryRows.Columns(question).Select(c => c + ", "));
        var thresholds = question.Thresholds.IsEmpty
            ? "SELECT NULL AS task, NULL AS hand_role, NULL::DOUBLE AS mdc WHERE false"
            : string.Join(" UNION ALL ", question.Thresholds.Select(t => string.Create(
                CultureInfo.InvariantCulture, $"SELECT {SqlTypes.Text(t.Task)} AS task, {(t.HandRole is { } role ? SqlTypes.Text(role) : "NULL")} AS hand_role, {t.Seconds}::DOUBLE AS mdc")));
        // arg_…_null: a session without a time stays that session, it is not passed over for the next.
        return $"""
            WITH timed AS (SELECT *, CASE WHEN outcome = 'completed' THEN seconds END AS done FROM {SummaryRows.Table}),
            pair AS MATERIALIZED (
                SELECT {by} person, task, hand, hand_role, arg_min_null(done, day) FILTER (days = 0) AS early,
                    {string.Join(", ", Later.Select((l, place) => $"{l.Pick}(done, day) FILTER ({l.Days}) AS later{place}, count(*) FILTER ({l.Days}) AS went{place}"))}
                FROM timed GROUP BY {by} person, task, hand, hand_role HAVING count(*) FILTER (days = 0) > 0),
            threshold AS ({thresholds}),
            judged AS (SELECT pair.*, mdc FROM pair LEFT JOIN threshold ON threshold.task = pair.task AND (threshold.hand_role IS NULL OR threshold.hand_role = pair.hand_role))
            {string.Join(" UNION ALL ", Later.Select((l, place) => One(by, l.Until, place)))}
            """;
    }

    private static string One(string by, string until, int place) => $"""
        SELECT {by} {SqlTypes.Text(until)}, count(*) FILTER (twice), avg(early) FILTER (twice), stddev_samp(early) FILTER (twice), avg(later) FILTER (twice), stddev_samp(later) FILTER (twice),
            stddev_samp(later - early) FILTER (twice), count(*) FILTER (NOT twice), count(*) FILTER (twice AND mdc IS NOT NULL),
            count(*) FILTER (twice AND early - later > mdc), count(*) FILTER (twice AND later - early > mdc), count(DISTINCT person) FILTER (twice)
        FROM (SELECT *, later{place} AS later, early IS NOT NULL AND later{place} IS NOT NULL AS twice FROM judged WHERE went{place} > 0) {(by.Length == 0 ? "" : "GROUP BY " + by.TrimEnd(',', ' '))}
        """;

    private static SummaryChange? Change(object?[] row, SummaryQuestion question)
    {
        var at = question.By.Length + 1;
        var until = (string)row[at - 1]!;
        int Count(int place) => Summarizer.Whole(row[at + place]);
        double Figure(int place) => Summarizer.Number(row[at + place]) ?? 0;
        var pairs = Count(0);
        return pairs + Count(6) == 0 ? null
            : Count(10) < question.SmallestGroup || pairs < 2 ? new(until, null, Count(6), 0, 0, 0)
            : new(until, new(pairs, Figure(1), Figure(2), Figure(3), Figure(4)) { ChangeStandardDeviation = Figure(5) }, Count(6), Count(7), Count(8), Count(9));
    }

    private static string Within(int weeks)
    {
        var (from, to) = SummaryRows.Window(weeks);
        return string.Create(CultureInfo.InvariantCulture, $"days BETWEEN {from} AND {to}");
    }
}
