using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>
/// The ledger in a PostgreSQL database, for any number of instances that accept and deliver. They share one key ring and
/// have clocks that agree to within a fifth of the lease duration.
/// </summary>
public sealed class PostgresLedger : SqlLedger, IInstanceGate
{
    private readonly PostgresStore store;

    /// <summary>Opens the database and brings it to this version's schema.</summary>
    /// <param name="connectionString">As Npgsql reads it. The database exists and its user may create tables.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="protector">Seals payloads; null keeps them as they are.</param>
    /// <param name="signal">Pulsed when something may be due; null wakes nobody.</param>
    /// <exception cref="LedgerException">The database cannot be used.</exception>
    public PostgresLedger(string connectionString, TimeProvider clock, IPayloadProtector? protector = null, LedgerSignal? signal = null)
        : this(connectionString, new PayloadSeal(protector), clock, signal)
    {
    }

    private PostgresLedger(string connectionString, PayloadSeal seal, TimeProvider clock, LedgerSignal? signal)
        : this(new PostgresStore(connectionString, seal, SqlMigrations.Of("Postgres"), clock), seal, clock, signal)
    {
    }

    private PostgresLedger(PostgresStore store, PayloadSeal seal, TimeProvider clock, LedgerSignal? signal)
        : base(store, seal, clock, signal) => this.store = store;

    /// <inheritdoc/>
    public Task<IAsyncDisposable> EnterAsync(string name, CancellationToken cancellation) => store.EnterAsync(name, cancellation);
}
