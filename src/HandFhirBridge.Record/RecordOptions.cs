namespace HandFhirBridge.Record;

/// <summary>What the embedded record needs to know.</summary>
public sealed class RecordOptions
{
    /// <summary>File of the SQLite database; made if it does not exist.</summary>
    public required string DatabasePath { get; init; }

    /// <summary>Largest request body in bytes. Default 16 MiB.</summary>
    public int MaxBodyBytes { get; init; } = 16 * 1024 * 1024;
}
