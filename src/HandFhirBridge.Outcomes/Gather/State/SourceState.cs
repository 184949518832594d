namespace HandFhirBridge.Outcomes.Gather.State;

/// <summary>What is known of a source between gatherings.</summary>
internal sealed class SourceState
{
    /// <summary>The server it was gathered from (<see cref="GatherSource.Identity"/>); another one begins anew.</summary>
    public required string Server { get; init; }

    /// <summary>The server's time up to which everything is here; null before the first gathering has ended.</summary>
    public DateTimeOffset? CompleteUntil { get; set; }

    /// <summary>Gathering under way; null if there is none.</summary>
    public PendingGather? Pending { get; set; }
}
