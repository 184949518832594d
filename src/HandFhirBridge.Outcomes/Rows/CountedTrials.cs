using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>
/// The trials as figures of groups need them: those that count, each with its person as a number, days since the person's first session at
/// the clinic, sex, age band and norm in one column. Made once when rows are made, so that no question has to join and tell apart a
/// million trials anew.
/// </summary>
internal static class CountedTrials
{
    /// <summary>Name of the table.</summary>
    public const string Table = "counted_trials";

    /// <summary>Between the parts of a norm: set, version, evidence.</summary>
    public const char PartOfNorm = '\u001f';

    /// <summary>Bits of <c>visit</c> that hold the time.</summary>
    public const int TimeBits = 40;

    private const string File = "_counted-trials.parquet";

    // series: a person's trials of a task with a hand, as a number.
    // visit: the day, and below it the milliseconds of a completed trial plus one, 0 for any other. The least of several is that of the
    // earliest day, which the engine finds several times as fast as the time at the least day.
    private static readonly string Select = $"""
        WITH begun AS (SELECT source, patient_key, site, min(day) AS first FROM trials GROUP BY ALL),
        numbered AS (SELECT source, patient_key, CAST(row_number() OVER () AS INTEGER) AS person FROM (SELECT DISTINCT source, patient_key FROM trials)),
        known AS (SELECT source, patient_key, any_value(gender) AS gender, any_value(TRY_CAST(birth_date AS DATE)) AS born FROM patients GROUP BY ALL),
        aged AS (
            SELECT numbered.person, trials.*, CAST(date_diff('day', first, day) AS INTEGER) AS days, coalesce(gender, 'unknown') AS sex,
                -- Whole years completed; date_sub counts complete parts.
                date_sub('year', born, day) AS age
            FROM trials JOIN begun USING (source, patient_key, site) JOIN numbered USING (source, patient_key) LEFT JOIN known USING (source, patient_key)
            WHERE status IN ('final', 'amended', 'corrected', 'cancelled'))
        SELECT person, CAST(dense_rank() OVER (ORDER BY person, task, hand, hand_role) AS INTEGER) AS series, source, patient_key, site, task, hand, hand_role, outcome, CAST(seconds AS DOUBLE) AS seconds, CAST(z AS DOUBLE) AS z,
            CASE WHEN z IS NOT NULL THEN concat_ws(chr({(int)PartOfNorm}), coalesce(norm_set, ''), coalesce(norm_version, ''), coalesce(norm_evidence, '')) END AS norm,
            norm_demonstration, days, sex,
            CASE WHEN age IS NULL THEN 'unknown' WHEN age >= 90 THEN '90+' ELSE lpad(CAST(age // 10 * 10 AS VARCHAR), 2, '0') || '-' || lpad(CAST(age // 10 * 10 + 9 AS VARCHAR), 2, '0') END AS age_band,
            (CAST(date_diff('day', DATE '0001-01-01', day) AS BIGINT) << {TimeBits}) + CASE WHEN outcome = 'completed' AND seconds >= 0 THEN CAST(seconds * 1000 AS BIGINT) + 1 ELSE 0 END AS visit
        FROM aged
        """;

    /// <summary>True if the tables they are made of are among the views.</summary>
    public static bool AreOf(IReadOnlyList<ViewDefinition> views) => views.Any(v => v.Name == "trials") && views.Any(v => v.Name == "patients");

    /// <summary>Writes them, and what follows from them, beside the rows of a set.</summary>
    /// <param name="rows">The rows, with <c>trials</c> and <c>patients</c>.</param>
    /// <param name="folder">The set's folder.</param>
    public static void Write(DuckDBConnection rows, string folder)
    {
        Write(rows, $"{Select} ORDER BY series, days", Path.Combine(folder, File));
        Create(rows, Table, Select, Path.Combine(folder, File));
        Write(rows, $"{CountedPairs.Select} ORDER BY by_site, task, hand_role", Path.Combine(folder, CountedPairs.File));
    }

    /// <summary>Makes tables of what was written beside the rows.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="folder">The set's folder.</param>
    public static void Open(DuckDBConnection rows, string folder)
    {
        Create(rows, Table, Select, Path.Combine(folder, File));
        Create(rows, CountedPairs.Table, CountedPairs.Select, Path.Combine(folder, CountedPairs.File));
    }

    /// <summary>Makes tables of the rows themselves, unless there are those of what was written.</summary>
    /// <param name="rows">The rows.</param>
    public static void Ensure(DuckDBConnection rows)
    {
        using var command = rows.CreateCommand();
        command.CommandText = $"SELECT count(*) FROM duckdb_views() WHERE view_name = '{Table}'";
        if (command.ExecuteScalar() is 0L)
        {
            Create(rows, Table, Select, null);
            Create(rows, CountedPairs.Table, CountedPairs.Select, null);
        }
    }

    private static void Write(DuckDBConnection rows, string select, string file) =>
        RowTable.Execute(rows, $"COPY ({select}) TO {SqlTypes.Text(file)} (FORMAT parquet, COMPRESSION zstd)");

    private static void Create(DuckDBConnection rows, string table, string select, string? file) =>
        RowTable.Execute(rows, $"CREATE VIEW {table} AS {(System.IO.File.Exists(file) ? $"SELECT * FROM read_parquet({SqlTypes.Text(Path.GetFullPath(file))})" : select)}");
}
