using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Makes rows of our views that tell nobody's identity. Columns that are not known to be harmless are left out.</summary>
public sealed class RowDeidentifier
{
    private static readonly FrozenDictionary<string, RowTreatment> ByColumn = new (RowTreatment Treatment, string[] Names)[]
    {
        (RowTreatment.Source, [ViewRows.SourceColumn]),
        (RowTreatment.Key, ["patient_key", "replaced_by", "trial_key", "total_key", "report_key", "condition_key"]),
        (RowTreatment.Site, ["site"]),
        (RowTreatment.Session, ["session"]),
        (RowTreatment.NormSet, ["norm_set"]),
        (RowTreatment.NormVersion, ["norm_version"]),
        (RowTreatment.Date, ["day", "started", "ended", "issued", "onset", "recorded"]),
        (RowTreatment.BirthDate, ["birth_date"]),
        (RowTreatment.System, ["system"]),
        (RowTreatment.CodeOfSystem, ["code"]),
        (RowTreatment.Plain, [
            "task", "hand", "hand_role", "status", "outcome", "seconds", "seconds_written", "comparator", "absent_reason", "z", "percent", "interpretation", "not_judged",
            "norm_evidence", "norm_sex", "norm_demonstration", "departures", "run_order", "time_source", "total", "report", "revision", "results",
            "gender", "active", "clinical_status"]),
    }.SelectMany(t => t.Names.Select(n => (n, t.Treatment))).ToFrozenDictionary(n => n.n, n => n.Treatment, StringComparer.Ordinal);

    /// <summary>In place of a date of birth that tells of an age over 89.</summary>
    private const string OldestCategory = "90+";

    private readonly Pseudonyms pseudonyms;
    private readonly CoarseDates dates;
    private readonly RemovalReport report;
    private readonly ImmutableArray<(int Place, RowTreatment? Treatment)> all;
    private readonly (int Source, int Patient, int Site, int System) place;

    /// <summary>For rows with these columns.</summary>
    /// <param name="options">How.</param>
    /// <param name="report">Takes the counts.</param>
    /// <param name="columns">Names of the columns, as the rows have them.</param>
    public RowDeidentifier(DeidentificationOptions options, RemovalReport report, ImmutableArray<string> columns)
    {
        ArgumentNullException.ThrowIfNull(options);
        (pseudonyms, dates, this.report) = (new(options.Key), new(options), report);
        all = [.. columns.Select((c, i) => (i, ByColumn.TryGetValue(c, out var treatment) ? treatment : (RowTreatment?)null))];
        Columns = [.. columns.Where(ByColumn.ContainsKey)];
        place = (columns.IndexOf(ViewRows.SourceColumn), columns.IndexOf("patient_key"), columns.IndexOf("site"), columns.IndexOf("system"));
    }

    /// <summary>Columns of the rows that are given out.</summary>
    public ImmutableArray<string> Columns { get; }

    /// <summary>A row as it may leave. Dates are text, as a year is no day.</summary>
    /// <param name="row">Cells in the order of the columns given.</param>
    public object?[] Row(IReadOnlyList<object?> row)
    {
        ArgumentNullException.ThrowIfNull(row);
        report.CountGiven();
        var kept = new List<object?>(Columns.Length);
        foreach (var (at, treatment) in all)
        {
            if (treatment is { } known)
            {
                kept.Add(row[at] is { } cell ? Cell(known, cell, row) : null);
            }
            else if (row[at] is not null)
            {
                report.Count(SafeHarborRule.ROther);
            }
        }

        return [.. kept];
    }

    private object? Cell(RowTreatment treatment, object cell, IReadOnlyList<object?> row)
    {
        var (text, source) = (Text(cell), At(row, place.Source));
        object? kept = treatment switch
        {
            RowTreatment.Source => pseudonyms.Source(text),
            RowTreatment.Key => pseudonyms.Key(source, text),
            RowTreatment.NormSet => string.Join('|', text.Split('|').Select(pseudonyms.NormSet)),
            RowTreatment.NormVersion => string.Join('|', text.Split('|').Select(pseudonyms.NormVersion)),
            RowTreatment.Site => pseudonyms.Site(text),
            RowTreatment.Session => pseudonyms.Session(At(row, place.Site), text),
            RowTreatment.Date => dates.Of(text, DaysBack(row)),
            RowTreatment.BirthDate => dates.Of(text, DaysBack(row)) ?? OldestCategory,
            RowTreatment.System => AllowedElements.IsCommon(text) ? text : null,
            RowTreatment.CodeOfSystem => AllowedElements.IsCommon(At(row, place.System)) && HarmlessText.IsCode(text) ? text : null,
            _ => cell is string ? (HarmlessText.IsCode(text) ? text : null) : cell is bool or int or long or decimal or double ? cell : null,
        };
        if (!Equals(kept, cell))
        {
            report.Count(treatment switch
            {
                RowTreatment.Date or RowTreatment.BirthDate => SafeHarborRule.CDate,
                RowTreatment.Site => SafeHarborRule.BPlace,
                RowTreatment.System => SafeHarborRule.NWebAddress,
                _ => SafeHarborRule.ROther,
            });
        }

        return kept;
    }

    private int? DaysBack(IReadOnlyList<object?> row) => place.Patient >= 0 && row[place.Patient] is { } key && Pseudonyms.Target(Text(key)) is (_, var id) ? pseudonyms.DaysBack(At(row, place.Source), id) : null;

    private static string At(IReadOnlyList<object?> row, int at) => at >= 0 && row[at] is { } cell ? Text(cell) : "";

    private static string Text(object cell) => cell is DateOnly day ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : Convert.ToString(cell, CultureInfo.InvariantCulture)!;
}
