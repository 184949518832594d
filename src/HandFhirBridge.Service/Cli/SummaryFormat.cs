namespace HandFhirBridge.Service.Cli;

/// <summary>Forms of a summary on standard output.</summary>
internal enum SummaryFormat
{
    /// <summary>Tables and what to know beside them.</summary>
    Text,

    /// <summary>The groups, comma-separated.</summary>
    Csv,

    /// <summary>The changes, comma-separated.</summary>
    CsvChanges,

    /// <summary>Everything as one JSON object.</summary>
    Json,
}
