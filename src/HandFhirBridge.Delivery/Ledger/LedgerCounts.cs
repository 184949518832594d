using System.Collections.Immutable;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>The ledger in numbers.</summary>
/// <param name="ByState">Entries by state; a state without entries is there with 0.</param>
/// <param name="OldestUnsent">When the oldest entry was accepted that is neither delivered nor superseded; null if there is none.</param>
public sealed record LedgerCounts(ImmutableDictionary<DeliveryState, int> ByState, DateTimeOffset? OldestUnsent)
{
    /// <summary>Entries that will be attempted without anybody's doing.</summary>
    public int Open => ByState[DeliveryState.Accepted] + ByState[DeliveryState.Sending];

    /// <summary>Entries that wait for a person.</summary>
    public int Waiting => ByState[DeliveryState.Held] + ByState[DeliveryState.Failed];
}
