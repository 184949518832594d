namespace HandFhirBridge.Service.Cli;

/// <summary>Forms of an export.</summary>
internal enum ExportFormat
{
    /// <summary>Comma-separated, with a header.</summary>
    Csv,

    /// <summary>One JSON object a line.</summary>
    Ndjson,
}
