using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>SQL that every figure of a summary begins with: one row a counted trial that was asked for, with what groups are told apart by.</summary>
internal static class SummaryRows
{
    /// <summary>Name of the table.</summary>
    public const string Table = "told_apart";

    /// <summary>Makes the table of the trials that were asked for.</summary>
    public static string Create(SummaryQuestion question) => Create(question, Table, CountedTrials.Table, "true");

    /// <summary>Makes a table of the rows of another that were asked for.</summary>
    /// <param name="question">What is asked.</param>
    /// <param name="name">Name of the table to make.</param>
    /// <param name="of">The other, with columns for the dimensions asked for.</param>
    /// <param name="condition">What holds besides; columns have <c>t.</c> before them.</param>
    public static string Create(SummaryQuestion question, string name, string of, string condition) => $"""
        CREATE OR REPLACE TEMP VIEW {name} AS
        SELECT t.* {string.Concat(question.By.Select((by, place) => $", CAST({Expression(by)} AS VARCHAR) AS {Column(place)}"))}
        FROM {of} t
        {(Uses(question, SummaryDimension.Condition) ? "LEFT JOIN (SELECT DISTINCT source, patient_key, concat_ws('|', system, code) AS condition FROM conditions) c USING (source, patient_key)" : "")}
        WHERE {condition} {string.Concat(question.Where.Select(w => $" AND {Expression(w.Key)} = {SqlTypes.Text(w.Value)}"))}
        """;

    /// <summary>True if results are told apart or chosen by a dimension.</summary>
    public static bool Uses(SummaryQuestion question, SummaryDimension dimension) => question.By.Contains(dimension) || question.Where.ContainsKey(dimension);

    /// <summary>Columns of the dimensions, each with a comma behind it.</summary>
    public static string Columns(SummaryQuestion question) => string.Concat(question.By.Select((_, place) => Column(place) + ", "));

    private static string Column(int place) => string.Create(CultureInfo.InvariantCulture, $"by{place}");

    private static string Expression(SummaryDimension dimension) => dimension switch
    {
        SummaryDimension.Task => "t.task",
        SummaryDimension.HandRole => "t.hand_role",
        SummaryDimension.Hand => "t.hand",
        SummaryDimension.Sex => "t.sex",
        SummaryDimension.AgeBand => "t.age_band",
        SummaryDimension.Site => "t.site",
        SummaryDimension.Interval => $"CASE WHEN t.days = 0 THEN 'first' {When(6)} {When(12)} ELSE 'other' END",
        SummaryDimension.Condition => "coalesce(c.condition, 'none recorded')",
        _ => throw new ArgumentOutOfRangeException(nameof(dimension), dimension, null),
    };

    private static string When(int weeks)
    {
        var (from, to) = CountedPairs.Window(weeks);
        return string.Create(CultureInfo.InvariantCulture, $"WHEN t.days BETWEEN {from} AND {to} THEN '{weeks} weeks'");
    }
}
