using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Operations;

/// <summary>Entries that wait for the same reason in the same state.</summary>
/// <param name="Code">Code of what stands in their way; null if nothing does.</param>
/// <param name="Title">The code in a few words; null without one.</param>
/// <param name="Remedy">What to do about it; null without a code.</param>
/// <param name="State">Where they stand.</param>
/// <param name="Entries">How many.</param>
/// <param name="Oldest">When the oldest of them was accepted, UTC.</param>
/// <param name="OneByOne">True if a retry of everything leaves them alone unless it names the code.</param>
public sealed record ProblemGroup(
    string? Code, string? Title, string? Remedy, DeliveryState State, int Entries, DateTimeOffset Oldest, bool OneByOne);
