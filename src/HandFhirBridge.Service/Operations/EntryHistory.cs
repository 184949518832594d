using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Operations;

/// <summary>One entry with all that happened to it. Texts are those kept, without the patient.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Remedy">What to do about its code; null without one.</param>
/// <param name="ChartId">Id of the chart at the target; null until it was found.</param>
/// <param name="Revisions">All revisions of the session, first to last.</param>
/// <param name="Attempts">Every attempt with the target's answer, mapped to task and hand, and what the target keeps otherwise than sent.</param>
/// <param name="Decisions">What persons decided about it.</param>
/// <param name="Actions">What a person may do now: any of retry, hold, resolve, withdraw.</param>
public sealed record EntryHistory(
    LedgerRow Entry,
    string? Remedy,
    string? ChartId,
    ImmutableArray<LedgerRow> Revisions,
    ImmutableArray<DeliveryAttempt> Attempts,
    ImmutableArray<LedgerDecision> Decisions,
    ImmutableArray<string> Actions);
