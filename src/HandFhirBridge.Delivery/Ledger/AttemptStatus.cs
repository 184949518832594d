namespace HandFhirBridge.Delivery.Ledger;

/// <summary>How one attempt ended.</summary>
public enum AttemptStatus
{
    /// <summary>All of it is at the target.</summary>
    Delivered,

    /// <summary>Surely nothing was written; to be tried again.</summary>
    Retry,

    /// <summary>Something may have been written; the next attempt looks before it writes.</summary>
    Unknown,

    /// <summary>A person must decide.</summary>
    Held,

    /// <summary>The target refused it for good.</summary>
    Failed,

    /// <summary>The process ended, or the lease ran out, before the attempt did. What was written is not known.</summary>
    Interrupted,
}
