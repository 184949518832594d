namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What the ledger did with a submitted session.</summary>
public enum AcceptOutcome
{
    /// <summary>New, committed.</summary>
    Accepted,

    /// <summary>The same content was accepted before; nothing was added and nothing will be sent twice.</summary>
    AlreadyAccepted,

    /// <summary>Other content is held under this session and revision; nothing was changed.</summary>
    Conflict,

    /// <summary>A later revision of the session is held; nothing was changed.</summary>
    OlderRevision,
}
