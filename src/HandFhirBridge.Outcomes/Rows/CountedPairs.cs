using System.Globalization;
using DuckDB.NET.Data;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>
/// A person's first trial of a task with a hand beside later ones, as figures of change need them; a row for all clinics of a source together
/// (<c>by_site</c> false), and a row for each clinic. Made once when rows are made: of a million trials there are hundreds of thousands.
/// </summary>
internal static class CountedPairs
{
    /// <summary>Name of the table.</summary>
    public const string Table = "counted_pairs";

    /// <summary>File beside the rows.</summary>
    public const string File = "_counted-pairs.parquet";

    /// <summary>Which later session, in what days since the first, and the earliest or the last of them. The columns of each end with its place.</summary>
    public static readonly (string Until, string Days, string Pick)[] Later =
        [("6 weeks", Within(6), "min"), ("12 weeks", Within(12), "min"), ("last", "days > 0", "max")];

    // A session without a time stays that session, it is not passed over for the next: a visit without a time has a number, and no seconds.
    public static readonly string Select = $"""
        WITH series AS (
            SELECT any_value(person) AS person, any_value(source) AS source, any_value(patient_key) AS patient_key, site, any_value(task) AS task, any_value(hand) AS hand,
                any_value(hand_role) AS hand_role, any_value(sex) AS sex, grouping(site) = 0 AS by_site,
                min(visit) FILTER (days = 0) AS begun, {Each((l, place) => $"{l.Pick}(visit) FILTER ({l.Days}) AS visit{place}")}
            FROM {CountedTrials.Table} GROUP BY GROUPING SETS ((series), (series, site))),
        timed AS (
            SELECT person, source, patient_key, site, task, hand, hand_role, sex, by_site, {Seconds("begun")} AS early,
                {Each((_, place) => $"visit{place} IS NOT NULL AS went{place}, {Seconds($"visit{place}")} AS later{place}")}
            FROM series WHERE begun IS NOT NULL)
        SELECT *, {Each((_, place) => $"went{place} AND early IS NOT NULL AND later{place} IS NOT NULL AS twice{place}")} FROM timed
        """;

    /// <summary>The window of days of a session some weeks after the first.</summary>
    public static (int From, int To) Window(int weeks) => ((7 * weeks) - 14, (7 * weeks) + 14);

    /// <summary>SQL of each later session, with commas between.</summary>
    public static string Each(Func<(string Until, string Days, string Pick), int, string> sql) => string.Join(", ", Later.Select(sql));

    private static string Seconds(string visit) =>
        string.Create(CultureInfo.InvariantCulture, $"CASE WHEN {visit} & {(1L << CountedTrials.TimeBits) - 1} > 0 THEN (({visit} & {(1L << CountedTrials.TimeBits) - 1}) - 1) / 1000.0::DOUBLE END");

    private static string Within(int weeks)
    {
        var (from, to) = Window(weeks);
        return string.Create(CultureInfo.InvariantCulture, $"days BETWEEN {from} AND {to}");
    }
}
