namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Entries that are not delivered and stand alike.</summary>
/// <param name="Target">Name of the target they go to.</param>
/// <param name="State">Where they stand.</param>
/// <param name="ProblemCode">Code of what stands in their way; null if nothing does.</param>
/// <param name="Entries">How many.</param>
/// <param name="Oldest">When the oldest of them was accepted, UTC.</param>
public sealed record LedgerGroup(string Target, DeliveryState State, string? ProblemCode, int Entries, DateTimeOffset Oldest);
