namespace HandFhirBridge.Service.Settings;

/// <summary>Where accepted sessions are kept until, and after, they are delivered.</summary>
public sealed class LedgerSettings
{
    /// <summary>Which store. Default <see cref="LedgerStore.Sqlite"/>.</summary>
    public LedgerStore Store { get; set; } = LedgerStore.Sqlite;

    /// <summary>Names the connection string of PostgreSQL, as <c>env:NAME</c> or <c>file:PATH</c>; null with SQLite.</summary>
    public string? ConnectionString { get; set; }

    /// <summary>Folder of the keys that seal what is held of patients; null is <c>keys</c> in the data directory. Instances that share a ledger share this folder.</summary>
    public string? KeysDirectory { get; set; }

    /// <summary>Minutes after which another instance takes over a session whose instance fell silent. Default 10, range 1 to 60.</summary>
    public int LeaseMinutes { get; set; } = 10;

    /// <summary>True if several instances may deliver from the ledger.</summary>
    public bool IsShared => Store == LedgerStore.Postgresql;
}
