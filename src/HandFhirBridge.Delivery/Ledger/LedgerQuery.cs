namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Chooses entries; what is null does not choose.</summary>
public sealed record LedgerQuery
{
    /// <summary>State.</summary>
    public DeliveryState? State { get; init; }

    /// <summary>True leaves out what is delivered or superseded. Default false.</summary>
    public bool Unsent { get; init; }

    /// <summary>Clinic.</summary>
    public string? Site { get; init; }

    /// <summary>Session of the clinic, in all its revisions.</summary>
    public string? SessionId { get; init; }

    /// <summary>Code of what stands in the way.</summary>
    public string? ProblemCode { get; init; }

    /// <summary>Target.</summary>
    public string? Target { get; init; }

    /// <summary>Most entries given. Default 100, from 1.</summary>
    public int Take { get; init; } = 100;

    /// <summary>Entries passed over. Default 0.</summary>
    public int Skip { get; init; }
}
