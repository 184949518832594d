namespace HandFhirBridge.Delivery.Ledger;

/// <summary>The revisions of one session.</summary>
public static class LedgerRevisions
{
    /// <summary>All of them, first to last; none if the ledger does not hold the session.</summary>
    public static async Task<IReadOnlyList<LedgerEntry>> ReadRevisionsAsync(this ILedger ledger, string site, string sessionId, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        var entries = await ledger.ListAsync(new() { Site = site, SessionId = sessionId, Take = int.MaxValue }, cancellation);
        return [.. entries.OrderBy(entry => entry.Key.Revision)];
    }
}
