using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>
/// The ledger in one SQLite file, for one process that delivers (others may accept and look). Written ahead
/// (<c>journal_mode = WAL</c>) with <c>synchronous = FULL</c>: a commit has reached the disk when it returns.
/// </summary>
public sealed class SqliteLedger : SqlLedger
{
    /// <summary>Opens the file, or makes it, and brings it to this version's schema.</summary>
    /// <param name="path">Path of the file; its folder is made if it is missing.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="protector">Seals payloads; null keeps them as they are.</param>
    /// <param name="signal">Pulsed when something may be due; null wakes nobody.</param>
    /// <param name="busyTimeout">How long to wait while another process writes. Default 10 s.</param>
    /// <exception cref="LedgerException">The file cannot be used.</exception>
    public SqliteLedger(
        string path, TimeProvider clock, IPayloadProtector? protector = null, LedgerSignal? signal = null, TimeSpan? busyTimeout = null)
        : base(new SqliteStore(path, busyTimeout ?? TimeSpan.FromSeconds(10), SqlMigrations.Of("Sqlite"), clock), new(protector), clock, signal)
    {
    }
}
