using System.Collections.Immutable;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A table; the first cell of each row is the row's heading.</summary>
/// <param name="Caption">What it shows.</param>
/// <param name="Columns">Columns.</param>
/// <param name="Rows">Rows, each with one cell a column.</param>
internal sealed record Table(string Caption, ImmutableArray<Column> Columns, ImmutableArray<Row> Rows) : ReportBlock;
