using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What retrying many at once leaves alone.</summary>
public static class BulkRetry
{
    /// <summary>
    /// Codes that a retry of everything does not touch unless it names them: what a person stopped on purpose, and what is
    /// retried only to say that the differences were seen and may stand.
    /// </summary>
    public static ImmutableArray<string> OneByOne { get; } = [LedgerProblems.HeldByPerson.Code, DeliveryProblems.KeptDifferently.Code];
}
