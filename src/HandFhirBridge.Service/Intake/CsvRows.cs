using System.Collections.Immutable;

namespace HandFhirBridge.Service.Intake;

/// <summary>Rows of one session as they stood in the table, so that refused ones can be written back.</summary>
/// <param name="Header">Header of the table.</param>
/// <param name="Rows">Rows in the order of the table.</param>
public sealed record CsvRows(CsvHeader Header, ImmutableArray<CsvTrialRow> Rows);
