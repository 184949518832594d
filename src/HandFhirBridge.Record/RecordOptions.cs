namespace HandFhirBridge.Record;

/// <summary>What the embedded record needs to know.</summary>
public sealed class RecordOptions
{
    /// <summary>File of the SQLite database, made if it does not exist. Null (the default) keeps the record in a temporary file that goes with the host.</summary>
    public string? DatabasePath { get; init; }

    /// <summary>Largest request body in bytes; a larger one is answered with 413. Default 16 MiB.</summary>
    public int MaxBodyBytes { get; init; } = 16 * 1024 * 1024;

    /// <summary>Matches on a page of search results where the client does not ask for a number. Default 50.</summary>
    public int DefaultPageSize { get; init; } = 50;

    /// <summary>Largest page of search results; a larger <c>_count</c> is brought down to it. Default 1000.</summary>
    public int MaxPageSize { get; init; } = 1000;
}
