namespace HandFhirBridge.Service.Settings;

/// <summary>Where the ledger is kept.</summary>
public enum LedgerStore
{
    /// <summary>A file in the data directory; one process delivers from it.</summary>
    Sqlite,

    /// <summary>A PostgreSQL database; any number of instances share it.</summary>
    Postgresql,
}
