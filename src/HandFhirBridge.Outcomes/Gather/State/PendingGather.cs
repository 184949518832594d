namespace HandFhirBridge.Outcomes.Gather.State;

/// <summary>A gathering under way, kept after each page and file, so that it goes on where it stopped.</summary>
internal sealed class PendingGather
{
    /// <summary><c>export</c> or <c>search</c>.</summary>
    public required string Method { get; set; }

    /// <summary>Changes since when are asked for; null for everything.</summary>
    public DateTimeOffset? Since { get; set; }

    /// <summary>The server's time when it began; changes since then are for the next time.</summary>
    public DateTimeOffset? Until { get; set; }

    /// <summary>Address that tells how the export is doing; null before it was begun.</summary>
    public string? StatusUrl { get; set; }

    /// <summary>Files of the export that are read, types whose pages are all read.</summary>
    public List<string> Done { get; init; } = [];

    /// <summary>Next page of the type being read; null at its beginning.</summary>
    public string? Next { get; set; }

    /// <summary>Bytes of each incoming file that count; what lies behind was written and not accounted for.</summary>
    public Dictionary<string, long> Lengths { get; init; } = [];

    /// <summary>Resources of ours read so far.</summary>
    public long Read { get; set; }
}
