using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>The ledger over a SQL database: one logic for every store, so that they cannot drift apart.</summary>
public abstract class SqlLedger : ILedger, IDisposable
{
    private readonly ISqlStore store;
    private readonly PayloadSeal seal;
    private readonly TimeProvider clock;
    private readonly LedgerSignal? signal;
    private long latest = long.MaxValue;

    private protected SqlLedger(ISqlStore store, PayloadSeal seal, TimeProvider clock, LedgerSignal? signal)
    {
        this.store = store;
        this.seal = seal;
        this.clock = clock;
        this.signal = signal;
    }

    private long Now => SessionRow.Ticks(clock.GetUtcNow());

    /// <inheritdoc/>
    public async Task<ImmutableArray<AcceptResult>> AcceptAsync(IReadOnlyList<AcceptedSession> sessions, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(sessions);
        var now = Now;
        var results = await store.WriteAsync(scope => new SqlIntake(scope, seal, now).AcceptAsync(sessions), cancellation);
        signal?.Pulse();
        return results;
    }

    /// <inheritdoc/>
    public Task<LedgerEntry?> FindAsync(SessionKey key, CancellationToken cancellation) => ReadAsync(ledger => ledger.FindAsync(key), cancellation);

    /// <inheritdoc/>
    public Task<LedgerPayload?> ReadPayloadAsync(SessionKey key, CancellationToken cancellation) =>
        ReadAsync(ledger => ledger.PayloadAsync(key), cancellation);

    /// <inheritdoc/>
    public Task<ImmutableArray<DeliveryAttempt>> ReadAttemptsAsync(SessionKey key, CancellationToken cancellation) =>
        ReadAsync(ledger => ledger.AttemptsAsync(key), cancellation);

    /// <inheritdoc/>
    public Task<ImmutableArray<LedgerEntry>> ListAsync(LedgerQuery query, CancellationToken cancellation) =>
        ReadAsync(ledger => ledger.ListAsync(query), cancellation);

    /// <inheritdoc/>
    public Task<LedgerCounts> CountAsync(CancellationToken cancellation) => ReadAsync(ledger => ledger.CountAsync(), cancellation);

    /// <inheritdoc/>
    public Task<DateTimeOffset?> NextDueAsync(CancellationToken cancellation) => ReadAsync(ledger => ledger.NextDueAsync(), cancellation);

    /// <inheritdoc/>
    public Task<LedgerLease?> LeaseAsync(
        string owner, TimeSpan duration, IReadOnlyCollection<string> pausedTargets, CancellationToken cancellation) =>
        store.WriteAsync(
            async scope =>
            {
                var (leases, now) = (new SqlLeases(scope, seal), clock.GetUtcNow());
                if (MayHaveGoneBack(SessionRow.Ticks(now)))
                {
                    await leases.CallForwardAsync(SessionRow.Ticks(now));
                }

                return await leases.TakeAsync(owner, now, duration, pausedTargets);
            },
            cancellation);

    /// <inheritdoc/>
    public Task<bool> CompleteAsync(LedgerLease lease, AttemptResult result, CancellationToken cancellation) =>
        store.WriteAsync(scope => new SqlOutcomes(scope, seal).CompleteAsync(lease, result, clock.GetUtcNow()), cancellation);

    /// <inheritdoc/>
    public Task<int> ReleaseAbandonedAsync(TimeSpan wait, CancellationToken cancellation)
    {
        var due = SessionRow.Ticks(clock.GetUtcNow() + wait);
        return store.WriteAsync(scope => new SqlLeases(scope, seal).EndAllAsync(due), cancellation);
    }

    /// <inheritdoc/>
    public Task<ImmutableArray<LedgerGroup>> GroupAsync(LedgerQuery query, CancellationToken cancellation) =>
        ReadAsync(ledger => ledger.GroupAsync(query), cancellation);

    /// <inheritdoc/>
    public async Task<bool> RetryAsync(SessionKey key, PersonDecision decision, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(decision);
        var changed = await store.WriteAsync(scope => new SqlOperations(scope, seal).RetryAsync(key, decision, Now), cancellation);
        signal?.Pulse();
        return changed;
    }

    /// <inheritdoc/>
    public async Task<RetryBatch> RetryAllAsync(LedgerQuery query, TimeSpan over, PersonDecision decision, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentNullException.ThrowIfNull(decision);
        ArgumentOutOfRangeException.ThrowIfLessThan(over, TimeSpan.Zero);
        var batch = await store.WriteAsync(scope => new SqlOperations(scope, seal).RetryAllAsync(query, over, decision, Now), cancellation);
        signal?.Pulse();
        return batch;
    }

    /// <inheritdoc/>
    public Task<bool> HoldAsync(SessionKey key, PersonDecision decision, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(decision);
        return store.WriteAsync(scope => new SqlOperations(scope, seal).HoldAsync(key, decision), cancellation);
    }

    /// <inheritdoc/>
    public async Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(choice);
        var done = await store.WriteAsync(scope => new SqlOperations(scope, seal).ResolveAsync(key, choice, Now), cancellation);
        signal?.Pulse();
        return done;
    }

    /// <inheritdoc/>
    public async Task<WithdrawalResult> WithdrawAsync(
        string site, string sessionId, PersonDecision withdrawal, Func<StandingRevision, Outcome<AcceptedSession>> map, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(withdrawal);
        ArgumentNullException.ThrowIfNull(map);
        var done = await store.WriteAsync(scope => new SqlWithdrawals(scope, seal, Now).WithdrawAsync(site, sessionId, withdrawal, map), cancellation);
        signal?.Pulse();
        return done;
    }

    /// <inheritdoc/>
    public Task<ImmutableArray<LedgerDecision>> ReadDecisionsAsync(SessionKey key, CancellationToken cancellation) =>
        store.ReadAsync(scope => new SqlDecisions(scope, seal).ReadAsync(key), cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        store.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>True when the clock went back since the last call, and at the first, as it may have gone back meanwhile.</summary>
    private bool MayHaveGoneBack(long now) => Interlocked.Exchange(ref latest, now) > now;

    private Task<T> ReadAsync<T>(Func<SqlReading, Task<T>> read, CancellationToken cancellation) =>
        store.ReadAsync(scope => read(new(scope, seal)), cancellation);
}
