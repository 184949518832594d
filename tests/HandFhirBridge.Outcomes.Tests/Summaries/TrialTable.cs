using System.Globalization;
using DuckDB.NET.Data;

namespace HandFhirBridge.Outcomes.Tests.Summaries;

/// <summary>Rows as the views give them, in the embedded engine, for questions to be asked of.</summary>
internal sealed class TrialTable : IDisposable
{
    public TrialTable()
    {
        Rows = new DuckDBConnection("DataSource=:memory:");
        Rows.Open();
        Run("CREATE TABLE trials (source VARCHAR, patient_key VARCHAR, site VARCHAR, session VARCHAR, task VARCHAR, hand VARCHAR, hand_role VARCHAR, status VARCHAR, outcome VARCHAR, "
            + "seconds DECIMAL(12,3), z DECIMAL(9,2), norm_set VARCHAR, norm_version VARCHAR, norm_evidence VARCHAR, norm_demonstration BOOLEAN, day DATE)");
        Run("CREATE TABLE patients (source VARCHAR, patient_key VARCHAR, gender VARCHAR, birth_date VARCHAR)");
        Run("CREATE TABLE conditions (source VARCHAR, patient_key VARCHAR, system VARCHAR, code VARCHAR)");
    }

    public DuckDBConnection Rows { get; }

    public void Trial(
        string patient, double? seconds, string outcome = "completed", string task = "writing", string role = "dominant", string site = "north", string day = "2026-01-05",
        double? z = null, string evidence = "site-double-entry", string status = "final") => Run(
        $"INSERT INTO trials VALUES ('{site}', '{patient}', '{site}', '{day}', '{task}', '{(role == "dominant" ? "right" : "left")}', '{role}', '{status}', '{outcome}', {Sql(seconds)}, {Sql(z)}, 'set', '1', '{evidence}', false, '{day}')");

    public void Patient(string patient, string? gender, string? born, string site = "north") =>
        Run($"INSERT INTO patients VALUES ('{site}', '{patient}', {(gender is null ? "NULL" : $"'{gender}'")}, {(born is null ? "NULL" : $"'{born}'")})");

    public void Condition(string patient, string code, string site = "north") => Run($"INSERT INTO conditions VALUES ('{site}', '{patient}', 'http://snomed.info/sct', '{code}')");

    public void Run(string sql)
    {
        using var command = Rows.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    public void Dispose() => Rows.Dispose();

    private static string Sql(double? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "NULL";
}
