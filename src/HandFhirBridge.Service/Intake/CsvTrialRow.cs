using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>One row of a table.</summary>
/// <param name="Row">Row as a spreadsheet counts it: the header is row 1.</param>
/// <param name="Fields">Fields in the order of the header; missing ones at the end are absent.</param>
/// <param name="Faults">What is wrong with the row as such, before its content is looked at.</param>
/// <param name="Raw">The row as it stood, if its quotation marks are out of place and the fields are therefore doubtful; else null.</param>
public sealed record CsvTrialRow(long Row, ImmutableArray<string> Fields, ImmutableArray<Problem> Faults, string? Raw = null)
{
    /// <summary>The field of a column, or empty if the row is too short or there is no such column.</summary>
    /// <param name="index">Index of the column; −1 for none.</param>
    public string this[int index] => index >= 0 && index < Fields.Length ? Fields[index] : "";
}
