using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Operations;

/// <summary>An entry as lists show it: nothing of the patient.</summary>
/// <param name="Site">Clinic.</param>
/// <param name="SessionId">The client's id.</param>
/// <param name="Revision">Revision.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Withdrawal">True if this revision withdraws the session.</param>
/// <param name="Target">Name of the target.</param>
/// <param name="AcceptedAt">When it was committed, UTC.</param>
/// <param name="NextAttemptAt">When it is due; null if no attempt is to come by itself.</param>
/// <param name="DeliveredAt">When the target was seen to keep it; null before.</param>
/// <param name="Attempts">Attempts begun.</param>
/// <param name="Code">Code of what stands in the way, or of what to know; null if there is neither.</param>
/// <param name="Reason">One sentence to the code.</param>
public sealed record LedgerRow(
    string Site,
    string SessionId,
    int Revision,
    DeliveryState State,
    bool Withdrawal,
    string Target,
    DateTimeOffset AcceptedAt,
    DateTimeOffset? NextAttemptAt,
    DateTimeOffset? DeliveredAt,
    int Attempts,
    string? Code,
    string? Reason)
{
    /// <summary>Of an entry.</summary>
    public static LedgerRow Of(LedgerEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return new(
            entry.Key.Site, entry.Key.SessionId, entry.Key.Revision, entry.State, entry.IsWithdrawal, entry.Target, entry.AcceptedAt,
            entry.NextAttemptAt, entry.DeliveredAt, entry.Attempts, entry.ProblemCode, entry.Reason);
    }
}
