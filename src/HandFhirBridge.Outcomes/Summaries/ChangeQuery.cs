using System.Collections.Immutable;
using System.Globalization;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Change of each group: every person's first trial of a task with a hand beside a later one. Groups that are themselves told apart by time have none.</summary>
internal static class ChangeQuery
{
    private const string Paired = "paired";

    // Figures of one later session in a row of the answer.
    private const int Figures = 10;

    public static Dictionary<string, ImmutableArray<SummaryChange>> Of(DuckDBConnection rows, SummaryQuestion question)
    {
        // Told apart by what may be otherwise at the next session, a person's trials would not stand side by side.
        if (question.By.Concat(question.Where.Keys).Any(d => d is SummaryDimension.Interval or SummaryDimension.AgeBand))
        {
            return [];
        }

        RowTable.Execute(rows, SummaryRows.Create(question, Paired, CountedPairs.Table, SummaryRows.Uses(question, SummaryDimension.Site) ? "t.by_site" : "NOT t.by_site"));
        var persons = Summarizer.Ask(rows, Persons(question)).ToDictionary(row => Summarizer.Name(Summarizer.Key(row, question)));
        return Summarizer.Ask(rows, Changes(question)).Select(row => (Name: Summarizer.Name(Summarizer.Key(row, question)), Row: row)).ToDictionary(
            group => group.Name,
            group => CountedPairs.Later.Select((_, place) => Change(group.Row, Summarizer.Whole(persons[group.Name][question.By.Length + place]), place, question)).OfType<SummaryChange>().ToImmutableArray());
    }

    // Persons first and their number after, for all sessions at once: several times as fast as three counts of distinct persons.
    private static string Persons(SummaryQuestion question)
    {
        var by = SummaryRows.Columns(question);
        return $"""
            SELECT {by} {CountedPairs.Each((_, place) => $"count(*) FILTER (twice{place})")}
            FROM (SELECT {by} person, {CountedPairs.Each((_, place) => $"bool_or(twice{place}) AS twice{place}")} FROM {Paired} GROUP BY ALL) GROUP BY ALL
            """;
    }

    private static string Changes(SummaryQuestion question) => $"""
        SELECT {SummaryRows.Columns(question)} {CountedPairs.Each((_, place) => $"""
            count(*) FILTER (twice{place}), avg(early) FILTER (twice{place}), stddev_samp(early) FILTER (twice{place}), avg(later{place}) FILTER (twice{place}), stddev_samp(later{place}) FILTER (twice{place}),
            stddev_samp(later{place} - early) FILTER (twice{place}), count(*) FILTER (went{place} AND NOT twice{place}), count(*) FILTER (twice{place} AND mdc IS NOT NULL),
            count(*) FILTER (twice{place} AND early - later{place} > mdc), count(*) FILTER (twice{place} AND later{place} - early > mdc)
            """)}
        FROM {(question.Thresholds.IsEmpty
            ? $"(SELECT *, NULL::DOUBLE AS mdc FROM {Paired})"
            : $"{Paired} t LEFT JOIN ({string.Join(" UNION ALL ", question.Thresholds.Select(Row))}) m ON m.of_task = t.task AND (m.of_role IS NULL OR m.of_role = t.hand_role)")}
        GROUP BY ALL
        """;

    private static string Row(ChangeThreshold of) => string.Create(
        CultureInfo.InvariantCulture, $"SELECT {SqlTypes.Text(of.Task)} AS of_task, {(of.HandRole is { } role ? SqlTypes.Text(role) : "NULL")} AS of_role, {of.Seconds}::DOUBLE AS mdc");

    private static SummaryChange? Change(object?[] row, int persons, int place, SummaryQuestion question)
    {
        var at = question.By.Length + (place * Figures);
        int Count(int figure) => Summarizer.Whole(row[at + figure]);
        double Figure(int figure) => Summarizer.Number(row[at + figure]) ?? 0;
        var (until, pairs) = (CountedPairs.Later[place].Until, Count(0));
        return pairs + Count(6) == 0 ? null
            : persons < question.SmallestGroup || pairs < 2 ? new(until, null, Count(6), 0, 0, 0)
            : new(until, new(pairs, Figure(1), Figure(2), Figure(3), Figure(4)) { ChangeStandardDeviation = Figure(5) }, Count(6), Count(7), Count(8), Count(9));
    }
}
