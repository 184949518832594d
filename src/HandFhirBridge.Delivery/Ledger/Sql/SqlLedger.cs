using System.Collections.Immutable;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>The ledger over a SQL database: one logic for every store, so that they cannot drift apart.</summary>
public abstract class SqlLedger : ILedger, IDisposable
{
    private readonly ISqlStore store;
    private readonly PayloadSeal seal;
    private readonly TimeProvider clock;
    private readonly LedgerSignal? signal;

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
        store.WriteAsync(scope => new SqlLeases(scope, seal).TakeAsync(owner, clock.GetUtcNow(), duration, pausedTargets), cancellation);

    /// <inheritdoc/>
    public Task<bool> CompleteAsync(LedgerLease lease, AttemptResult result, CancellationToken cancellation) =>
        store.WriteAsync(scope => new SqlOutcomes(scope, seal).CompleteAsync(lease, result, clock.GetUtcNow()), cancellation);

    /// <inheritdoc/>
    public Task<int> ReleaseAbandonedAsync(CancellationToken cancellation) =>
        store.WriteAsync(scope => new SqlLeases(scope, seal).EndAllAsync(Now), cancellation);

    /// <inheritdoc/>
    public async Task<bool> RetryAsync(SessionKey key, CancellationToken cancellation)
    {
        var changed = await store.WriteAsync(scope => new SqlOutcomes(scope, seal).RetryAsync(key, Now), cancellation);
        signal?.Pulse();
        return changed;
    }

    /// <inheritdoc/>
    public async Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(choice);
        var done = await store.WriteAsync(scope => new SqlDecisions(scope, seal).ResolveAsync(key, choice, Now), cancellation);
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

    private Task<T> ReadAsync<T>(Func<SqlReading, Task<T>> read, CancellationToken cancellation) =>
        store.ReadAsync(scope => read(new(scope, seal)), cancellation);
}
