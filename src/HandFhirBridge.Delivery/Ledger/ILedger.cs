using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>
/// Durable state of all accepted sessions. When a call has returned, what it says is on the disk. Every call may throw
/// <see cref="LedgerException"/>; nothing is then half written.
/// </summary>
public interface ILedger
{
    /// <summary>Commits sessions, all in one transaction; refused ones do not keep back the others.</summary>
    /// <returns>One result per session, in their order.</returns>
    Task<ImmutableArray<AcceptResult>> AcceptAsync(IReadOnlyList<AcceptedSession> sessions, CancellationToken cancellation);

    /// <summary>The entry of one revision; null if there is none.</summary>
    Task<LedgerEntry?> FindAsync(SessionKey key, CancellationToken cancellation);

    /// <summary>What the entry holds of the patient; null if there is no such entry.</summary>
    Task<LedgerPayload?> ReadPayloadAsync(SessionKey key, CancellationToken cancellation);

    /// <summary>All attempts of an entry, in order.</summary>
    Task<ImmutableArray<DeliveryAttempt>> ReadAttemptsAsync(SessionKey key, CancellationToken cancellation);

    /// <summary>Entries that match, oldest accepted first.</summary>
    Task<ImmutableArray<LedgerEntry>> ListAsync(LedgerQuery query, CancellationToken cancellation);

    /// <summary>How many there are, and how old the oldest unsent one is.</summary>
    Task<LedgerCounts> CountAsync(CancellationToken cancellation);

    /// <summary>
    /// Takes the entry that has been due longest. Passed over are patients with a session under way, a revision whose
    /// predecessor is still to be sent, and targets in <paramref name="pausedTargets"/>.
    /// </summary>
    /// <param name="owner">Who asks; told apart from others by this name.</param>
    /// <param name="duration">Time until the lease runs out; longer than any attempt.</param>
    /// <param name="pausedTargets">Targets that take nothing at present.</param>
    /// <param name="cancellation">Gives up waiting for the store.</param>
    /// <returns>Null if nothing is due.</returns>
    Task<LedgerLease?> LeaseAsync(
        string owner, TimeSpan duration, IReadOnlyCollection<string> pausedTargets, CancellationToken cancellation);

    /// <summary>Records the attempt and gives the lease back.</summary>
    /// <returns>False if the lease had run out and another worker took over; then nothing is recorded.</returns>
    Task<bool> CompleteAsync(LedgerLease lease, AttemptResult result, CancellationToken cancellation);

    /// <summary>Ends leases that nobody holds any more. Only for a store that a single process uses, at its start.</summary>
    /// <param name="wait">Time until they are due: the target may still be at work on what the dead process wrote last.</param>
    /// <param name="cancellation">Gives up waiting for the store.</param>
    /// <returns>How many were ended.</returns>
    Task<int> ReleaseAbandonedAsync(TimeSpan wait, CancellationToken cancellation);

    /// <summary>Entries that are not delivered, counted by target, state and code, oldest first.</summary>
    /// <param name="query">Chooses among them; its state may choose one of the unsent, its range does not count.</param>
    /// <param name="cancellation">Gives up waiting for the store.</param>
    Task<ImmutableArray<LedgerGroup>> GroupAsync(LedgerQuery query, CancellationToken cancellation);

    /// <summary>Keeps the decision and puts a held or failed entry in line again; its next attempt looks before it writes.</summary>
    /// <returns>False if it is not held or failed, or a later revision was accepted; then nothing is kept.</returns>
    Task<bool> RetryAsync(SessionKey key, PersonDecision decision, CancellationToken cancellation);

    /// <summary>
    /// Keeps the decision with each held or failed entry that matches and puts them all in line again, evenly spread in time,
    /// oldest first. What persons must look at one by one (<see cref="BulkRetry.OneByOne"/>) is chosen only where the query names its code.
    /// </summary>
    /// <param name="query">Chooses; its range does not count.</param>
    /// <param name="over">Time over which they fall due; zero makes them due at once.</param>
    /// <param name="decision">Who and why.</param>
    /// <param name="cancellation">Gives up waiting for the store.</param>
    Task<RetryBatch> RetryAllAsync(LedgerQuery query, TimeSpan over, PersonDecision decision, CancellationToken cancellation);

    /// <summary>
    /// Keeps the decision and takes an entry out of line until a person retries it. Earlier revisions that are still in line are
    /// superseded, so that none of them is sent in its place.
    /// </summary>
    /// <returns>False if it is not in line, is being sent, or a later revision was accepted; then nothing is kept.</returns>
    Task<bool> HoldAsync(SessionKey key, PersonDecision decision, CancellationToken cancellation);

    /// <summary>
    /// Keeps the chart that a person chose for a held entry, together with who chose and why, and puts the entry in line again.
    /// The choice holds for later revisions too, as they are of the same patient.
    /// </summary>
    /// <returns>False if the entry is not held, or a later revision was accepted; then nothing is kept.</returns>
    Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, CancellationToken cancellation);

    /// <summary>
    /// Commits the withdrawal of a session as its next and last revision, together with who withdrew it and why. What still waits
    /// is taken out of line; what may be in a chart is withdrawn there, after all that is under way.
    /// </summary>
    /// <param name="site">Id of the clinic.</param>
    /// <param name="sessionId">The client's id.</param>
    /// <param name="withdrawal">Who, why, when.</param>
    /// <param name="map">Makes the withdrawn session, or says why it cannot; run while the session is kept from all other writers, perhaps more than once.</param>
    /// <param name="cancellation">Gives up waiting for the store.</param>
    Task<WithdrawalResult> WithdrawAsync(
        string site, string sessionId, PersonDecision withdrawal, Func<StandingRevision, Outcome<AcceptedSession>> map, CancellationToken cancellation);

    /// <summary>What persons decided about an entry, in order.</summary>
    Task<ImmutableArray<LedgerDecision>> ReadDecisionsAsync(SessionKey key, CancellationToken cancellation);

    /// <summary>When the next entry is due; null if none is to be attempted.</summary>
    Task<DateTimeOffset?> NextDueAsync(CancellationToken cancellation);
}
