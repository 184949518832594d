using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>SQL that every figure of a summary begins with: one row a counted trial, with what groups are told apart by.</summary>
internal static class SummaryRows
{
    /// <summary>Name of the table.</summary>
    public const string Table = "told_apart";

    /// <summary>Makes the table of the trials that were asked for.</summary>
    public static string Create(SummaryQuestion question) => $"""
        CREATE TEMP TABLE {Table} AS
        WITH first_day AS (SELECT source, patient_key, site, min(day) AS first FROM trials GROUP BY ALL),
        person AS (SELECT source, patient_key, any_value(gender) AS gender, any_value(birth_date) AS birth_date FROM patients GROUP BY ALL)
        {(Uses(question, SummaryDimension.Condition) ? ", condition AS (SELECT DISTINCT source, patient_key, concat_ws('|', system, code) AS condition FROM conditions)" : "")}
        SELECT t.source, hash(t.source, t.patient_key) AS person, t.day, t.task, t.hand, t.hand_role, t.outcome,
            CAST(t.seconds AS DOUBLE) AS seconds, CAST(t.z AS DOUBLE) AS z, CASE WHEN t.z IS NOT NULL THEN {Norm("t.")} END AS norm, t.norm_demonstration,
            date_diff('day', f.first, t.day) AS days,
            {string.Join(", ", question.By.Select((by, place) => $"CAST({Expression(by)} AS VARCHAR) AS {Column(place)}").DefaultIfEmpty("NULL AS none"))}
        FROM trials t
        JOIN first_day f USING (source, patient_key, site)
        LEFT JOIN person p USING (source, patient_key)
        {(Uses(question, SummaryDimension.Condition) ? "LEFT JOIN condition c USING (source, patient_key)" : "")}
        WHERE t.status IN ('final', 'amended', 'corrected', 'cancelled')
        {string.Concat(question.Where.Select(w => $" AND {Expression(w.Key)} = {SqlTypes.Text(w.Value)}"))}
        """;

    /// <summary>The norm of a trial as one number; equal for the same set, version and evidence.</summary>
    /// <param name="of">Table with a dot, or nothing.</param>
    public static string Norm(string of = "") => $"hash({of}norm_set, {of}norm_version, {of}norm_evidence)";

    /// <summary>Columns of the dimensions, for SELECT and GROUP BY.</summary>
    public static ImmutableArray<string> Columns(SummaryQuestion question) => [.. question.By.Select((_, place) => Column(place))];

    /// <summary>The window of days of an interval.</summary>
    public static (int From, int To) Window(int weeks) => ((7 * weeks) - 14, (7 * weeks) + 14);

    private static bool Uses(SummaryQuestion question, SummaryDimension dimension) => question.By.Contains(dimension) || question.Where.ContainsKey(dimension);

    private static string Column(int place) => string.Create(CultureInfo.InvariantCulture, $"by{place}");

    private static string Expression(SummaryDimension dimension) => dimension switch
    {
        SummaryDimension.Task => "t.task",
        SummaryDimension.HandRole => "t.hand_role",
        SummaryDimension.Hand => "t.hand",
        SummaryDimension.Sex => "coalesce(p.gender, 'unknown')",
        // Whole years completed; DuckDB's date_sub counts complete parts.
        SummaryDimension.AgeBand => """
            CASE WHEN TRY_CAST(p.birth_date AS DATE) IS NULL THEN 'unknown'
                WHEN date_sub('year', TRY_CAST(p.birth_date AS DATE), t.day) >= 90 THEN '90+'
                ELSE lpad(CAST(date_sub('year', TRY_CAST(p.birth_date AS DATE), t.day) // 10 * 10 AS VARCHAR), 2, '0')
                    || '-' || lpad(CAST(date_sub('year', TRY_CAST(p.birth_date AS DATE), t.day) // 10 * 10 + 9 AS VARCHAR), 2, '0') END
            """,
        SummaryDimension.Site => "t.site",
        SummaryDimension.Interval => $"CASE WHEN t.day = f.first THEN 'first' {When(6)} {When(12)} ELSE 'other' END",
        SummaryDimension.Condition => "coalesce(c.condition, 'none recorded')",
        _ => throw new ArgumentOutOfRangeException(nameof(dimension), dimension, null),
    };

    private static string When(int weeks)
    {
        var (from, to) = Window(weeks);
        return string.Create(CultureInfo.InvariantCulture, $"WHEN date_diff('day', f.first, t.day) BETWEEN {from} AND {to} THEN '{weeks} weeks'");
    }
}
