namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Entries that were put in line again together.</summary>
/// <param name="Entries">How many.</param>
/// <param name="First">When the first of them is due, UTC; null if there are none.</param>
/// <param name="Last">When the last of them is due, UTC; null if there are none.</param>
public sealed record RetryBatch(int Entries, DateTimeOffset? First, DateTimeOffset? Last);
