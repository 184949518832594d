using System.Collections.Immutable;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>The right to send one session, until it runs out.</summary>
/// <param name="Entry">The session; its <see cref="LedgerEntry.Attempts"/> counts this attempt already.</param>
/// <param name="Payload">What to send.</param>
/// <param name="InDoubt">True if an earlier attempt may have written something: look before writing.</param>
/// <param name="Owner">Who leased it.</param>
/// <param name="StartedAt">When the attempt began, UTC.</param>
/// <param name="Until">When it runs out, UTC.</param>
public sealed record LedgerLease(
    LedgerEntry Entry, LedgerPayload Payload, bool InDoubt, string Owner, DateTimeOffset StartedAt, DateTimeOffset Until)
{
    /// <summary>Chart that a person chose for the session; null if none did.</summary>
    public ChartChoice? Choice { get; init; }

    /// <summary>Mapped transactions of earlier revisions that are or may be in the chart, in their order; what stood in them and no longer stands is taken back.</summary>
    public ImmutableArray<ReadOnlyMemory<byte>> Earlier { get; init; } = [];
}
