namespace HandFhirBridge.Service.Cli;

/// <summary>Forms of rows on standard output.</summary>
internal enum RowFormat
{
    /// <summary>Aligned columns for reading.</summary>
    Table,

    /// <summary>Comma-separated, with a header.</summary>
    Csv,

    /// <summary>One JSON object a line.</summary>
    Ndjson,
}
