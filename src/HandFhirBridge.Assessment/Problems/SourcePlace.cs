namespace HandFhirBridge.Assessment.Problems;

/// <summary>A place in a file a person can put the cursor on.</summary>
/// <param name="Source">File name, or <c>stdin</c>.</param>
/// <param name="Line">1-based line (NDJSON) or row including the header (CSV); null where the whole file is meant.</param>
/// <param name="Column">Name of the CSV column; null for other formats.</param>
public sealed record SourcePlace(string Source, long? Line = null, string? Column = null)
{
    /// <inheritdoc/>
    public override string ToString() =>
        Source + (Line is { } line ? $" line {line}" : "") + (Column is null ? "" : $" column {Column}");
}
