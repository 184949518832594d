using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Http;

/// <summary>Where a session stands, as the API tells it.</summary>
/// <param name="Site">Clinic.</param>
/// <param name="SessionId">Session.</param>
/// <param name="Revision">Revision.</param>
/// <param name="State">State.</param>
/// <param name="AcceptedAt">When it was committed.</param>
/// <param name="DeliveredAt">When the target was seen to keep it; null before.</param>
/// <param name="NextAttemptAt">When it is tried next; null if no attempt is to come by itself.</param>
/// <param name="Code">Code of what stands in the way; null if nothing does.</param>
/// <param name="Reason">One sentence to the code.</param>
/// <param name="Withdrawn">That and why it was withdrawn; null if it was not.</param>
/// <param name="Attempts">Every attempt with the target's answer.</param>
public sealed record SessionState(
    string Site,
    string SessionId,
    int Revision,
    DeliveryState State,
    DateTimeOffset AcceptedAt,
    DateTimeOffset? DeliveredAt,
    DateTimeOffset? NextAttemptAt,
    string? Code,
    string? Reason,
    SessionWithdrawn? Withdrawn,
    ImmutableArray<DeliveryAttempt> Attempts)
{
    /// <summary>The state of a ledger entry, with its attempts and what persons decided about it.</summary>
    public static SessionState Of(LedgerEntry entry, ImmutableArray<DeliveryAttempt> attempts, ImmutableArray<LedgerDecision> decisions)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return new(
            entry.Key.Site, entry.Key.SessionId, entry.Key.Revision, entry.State, entry.AcceptedAt, entry.DeliveredAt,
            entry.NextAttemptAt, entry.ProblemCode, entry.Reason, SessionWithdrawn.Of(entry, decisions), attempts);
    }
}
