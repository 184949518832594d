using Hl7.Fhir.Model;

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

    /// <summary>Bulk exports that are made at the same time; a further one is answered with 429. Default 2.</summary>
    public int MaxRunningExports { get; init; } = 2;

    /// <summary>Bulk exports that are made or kept at the same time; a further one is answered with 429. Default 20.</summary>
    public int MaxKeptExports { get; init; } = 20;

    /// <summary>How long the files of a bulk export are kept after it is done. Default 1 h.</summary>
    public TimeSpan ExportLifetime { get; init; } = TimeSpan.FromHours(1);

    /// <summary>Profiles that <c>$validate</c> checks beside base R4. Null (the default) for none.</summary>
    public IRecordProfiles? Profiles { get; init; }

    /// <summary>How callers sign in, as the CapabilityStatement is to say it. Null (the default): they do not. Whoever maps the record has it kept to.</summary>
    public CapabilityStatement.SecurityComponent? Security { get; init; }
}
