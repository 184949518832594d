using System.Collections.Immutable;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A row of a table.</summary>
/// <param name="Cells">One a column.</param>
/// <param name="Marked">True for a row that stands out: a slow or missing trial. It says so in words too.</param>
internal sealed record Row(ImmutableArray<string> Cells, bool Marked = false);
