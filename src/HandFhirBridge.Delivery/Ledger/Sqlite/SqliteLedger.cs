using System.Collections.Immutable;
using Dapper;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>
/// The ledger in one SQLite file, for one process that delivers (others may accept and look). Written ahead
/// (<c>journal_mode = WAL</c>) with <c>synchronous = FULL</c>: a commit has reached the disk when it returns.
/// </summary>
public sealed class SqliteLedger : ILedger, IDisposable
{
    private readonly SqliteStore store;
    private readonly PayloadSeal seal;
    private readonly TimeProvider clock;
    private readonly LedgerSignal? signal;

    /// <summary>Opens the file, or makes it.</summary>
    /// <param name="path">Path of the file; its folder is made if it is missing.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="protector">Seals payloads; null keeps them as they are.</param>
    /// <param name="signal">Pulsed when something may be due; null wakes nobody.</param>
    /// <param name="busyTimeout">How long to wait while another process writes. Default 10 s.</param>
    /// <exception cref="LedgerException">The file cannot be used.</exception>
    public SqliteLedger(
        string path, TimeProvider clock, IPayloadProtector? protector = null, LedgerSignal? signal = null, TimeSpan? busyTimeout = null)
    {
        this.clock = clock;
        this.signal = signal;
        seal = new(protector);
        store = new(path, busyTimeout ?? TimeSpan.FromSeconds(10), clock);
    }

    private long Now => SessionRow.Ticks(clock.GetUtcNow());

    /// <inheritdoc/>
    public async Task<ImmutableArray<AcceptResult>> AcceptAsync(IReadOnlyList<AcceptedSession> sessions, CancellationToken cancellation)
    {
        var now = Now;
        var results = await store.WriteAsync(
            (connection, transaction) =>
            {
                var intake = new SqliteIntake(connection, transaction, seal, now);
                return sessions.Select(intake.Accept).ToImmutableArray();
            },
            cancellation);
        signal?.Pulse();
        return results;
    }

    /// <inheritdoc/>
    public Task<LedgerEntry?> FindAsync(SessionKey key, CancellationToken cancellation) => Task.FromResult(store.Read(connection =>
        connection.QuerySingleOrDefault<SessionRow>($"SELECT {SessionRow.Columns} FROM sessions s WHERE {ByKey}", key)?.ToEntry()));

    /// <inheritdoc/>
    public Task<LedgerPayload?> ReadPayloadAsync(SessionKey key, CancellationToken cancellation) => Task.FromResult(store.Read(connection =>
        connection.QuerySingleOrDefault<PayloadSeal.PayloadRow>(
            $"SELECT p.scheme, p.document, p.bundle, p.patient FROM payloads p JOIN sessions s ON s.id = p.session WHERE {ByKey}", key) is { } row
            ? seal.Open(row, key)
            : null));

    /// <inheritdoc/>
    public Task<ImmutableArray<DeliveryAttempt>> ReadAttemptsAsync(SessionKey key, CancellationToken cancellation) => Task.FromResult(
        store.Read(connection => connection.Query<AttemptRow>(
            $"SELECT {AttemptRow.Columns} FROM attempts WHERE session = (SELECT s.id FROM sessions s WHERE {ByKey}) ORDER BY number", key)
            .Select(row => row.ToAttempt(seal)).ToImmutableArray()));

    /// <inheritdoc/>
    public Task<ImmutableArray<LedgerEntry>> ListAsync(LedgerQuery query, CancellationToken cancellation) => Task.FromResult(
        store.Read(connection => connection.Query<SessionRow>(
            $"""
            SELECT {SessionRow.Columns} FROM sessions s
            WHERE (@State IS NULL OR s.state = @State) AND (@Site IS NULL OR s.site = @Site) AND (@SessionId IS NULL OR s.session_id = @SessionId)
              AND (@ProblemCode IS NULL OR s.problem_code = @ProblemCode) AND (@Target IS NULL OR s.target = @Target)
            ORDER BY s.accepted_at, s.id LIMIT @Take OFFSET @Skip
            """,
            new
            {
                State = query.State is { } state ? SessionRow.Word(state) : null,
                query.Site,
                query.SessionId,
                query.ProblemCode,
                query.Target,
                query.Take,
                query.Skip,
            }).Select(row => row.ToEntry()).ToImmutableArray()));

    /// <inheritdoc/>
    public Task<LedgerCounts> CountAsync(CancellationToken cancellation) => Task.FromResult(store.Read(connection =>
    {
        var counted = connection.Query<(string State, int Count)>("SELECT state, count(*) FROM sessions GROUP BY state")
            .ToDictionary(row => row.State, row => row.Count);
        var oldest = connection.ExecuteScalar<long?>(
            "SELECT min(accepted_at) FROM sessions WHERE state IN ('accepted', 'sending', 'held', 'failed')");
        return new LedgerCounts(
            Enum.GetValues<DeliveryState>().ToImmutableDictionary(s => s, s => counted.GetValueOrDefault(SessionRow.Word(s))),
            oldest is { } time ? DateTimeOffset.FromUnixTimeMilliseconds(time) : null);
    }));

    /// <inheritdoc/>
    public Task<LedgerLease?> LeaseAsync(
        string owner, TimeSpan duration, IReadOnlyCollection<string> pausedTargets, CancellationToken cancellation) =>
        store.WriteAsync(
            (connection, transaction) => new SqliteLeases(connection, transaction, seal).Take(owner, clock.GetUtcNow(), duration, pausedTargets),
            cancellation);

    /// <inheritdoc/>
    public Task<bool> CompleteAsync(LedgerLease lease, AttemptResult result, CancellationToken cancellation) => store.WriteAsync(
        (connection, transaction) => new SqliteLeases(connection, transaction, seal).Complete(lease, result, clock.GetUtcNow()),
        cancellation);

    /// <inheritdoc/>
    public Task<int> ReleaseAbandonedAsync(CancellationToken cancellation) => store.WriteAsync(
        (connection, transaction) => new SqliteLeases(connection, transaction, seal).ReleaseAll(Now), cancellation);

    /// <inheritdoc/>
    public async Task<bool> RetryAsync(SessionKey key, CancellationToken cancellation)
    {
        var changed = await store.WriteAsync(
            (connection, transaction) => connection.Execute(
                """
                UPDATE sessions SET state = 'accepted', next_attempt_at = @now, in_doubt = 1, problem_code = NULL, reason = NULL
                WHERE site = @Site AND session_id = @SessionId AND revision = @Revision AND state IN ('held', 'failed')
                """,
                new { key.Site, key.SessionId, key.Revision, now = Now },
                transaction),
            cancellation);
        signal?.Pulse();
        return changed == 1;
    }

    /// <inheritdoc/>
    public async Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(choice);
        var done = await store.WriteAsync(
            (connection, transaction) => new SqliteDecisions(connection, transaction, seal).Resolve(key, choice, Now), cancellation);
        signal?.Pulse();
        return done;
    }

    /// <inheritdoc/>
    public Task<ImmutableArray<LedgerDecision>> ReadDecisionsAsync(SessionKey key, CancellationToken cancellation) => Task.FromResult(
        store.Read(connection => new SqliteDecisions(connection, null, seal).Read(key)));

    /// <inheritdoc/>
    public Task<DateTimeOffset?> NextDueAsync(CancellationToken cancellation) => Task.FromResult(store.Read(connection =>
        connection.ExecuteScalar<long?>(
            """
            SELECT min(due) FROM (
              SELECT min(next_attempt_at) due FROM sessions WHERE state = 'accepted'
              UNION ALL SELECT min(lease_until) FROM sessions WHERE state = 'sending')
            """) is { } due
            ? DateTimeOffset.FromUnixTimeMilliseconds(due)
            : (DateTimeOffset?)null));

    /// <inheritdoc/>
    public void Dispose() => store.Dispose();

    private const string ByKey = "s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision";
}
