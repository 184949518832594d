namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Where an accepted session stands. Every state survives the end of the process.</summary>
public enum DeliveryState
{
    /// <summary>Committed; waits for its next attempt, which may lie in the future.</summary>
    Accepted,

    /// <summary>Leased by a worker. When the lease runs out, it is due again.</summary>
    Sending,

    /// <summary>The target keeps all of it. Final.</summary>
    Delivered,

    /// <summary>Waits for a person, for example because the chart could not be told for sure. Nothing was written.</summary>
    Held,

    /// <summary>Dead letter: the target refused it and would again. Waits for a person.</summary>
    Failed,

    /// <summary>A later revision or the withdrawal of the session took its place, so this one must never be sent. Final.</summary>
    Superseded,
}
