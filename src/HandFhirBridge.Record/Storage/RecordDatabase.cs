using Dapper;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>The database file: its schema, and connections to it.</summary>
internal sealed class RecordDatabase
{
    private const string Schema = """
        CREATE TABLE IF NOT EXISTS resource (
          rid INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL,
          deleted INTEGER NOT NULL, json TEXT, UNIQUE (type, id));
        CREATE TABLE IF NOT EXISTS history (
          type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL, deleted INTEGER NOT NULL,
          json TEXT, PRIMARY KEY (type, id, version)) WITHOUT ROWID;
        CREATE TABLE IF NOT EXISTS token (rid INTEGER NOT NULL, param TEXT NOT NULL, system TEXT NOT NULL, code TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS token_code ON token (param, code, system, rid);
        CREATE INDEX IF NOT EXISTS token_rid ON token (rid);
        CREATE TABLE IF NOT EXISTS reference (
          rid INTEGER NOT NULL, param TEXT NOT NULL, target TEXT NOT NULL, system TEXT NOT NULL, value TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS reference_target ON reference (param, target, rid);
        CREATE INDEX IF NOT EXISTS reference_identifier ON reference (param, value, system, rid);
        CREATE INDEX IF NOT EXISTS reference_rid ON reference (rid);
        CREATE TABLE IF NOT EXISTS span (rid INTEGER NOT NULL, param TEXT NOT NULL, low INTEGER NOT NULL, high INTEGER NOT NULL);
        CREATE INDEX IF NOT EXISTS span_low ON span (param, low, high, rid);
        CREATE INDEX IF NOT EXISTS span_rid ON span (rid);
        CREATE TABLE IF NOT EXISTS text (rid INTEGER NOT NULL, param TEXT NOT NULL, plain TEXT NOT NULL, exact TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS text_plain ON text (param, plain, rid);
        CREATE INDEX IF NOT EXISTS text_rid ON text (rid);
        CREATE TABLE IF NOT EXISTS amount (
          rid INTEGER NOT NULL, param TEXT NOT NULL, low REAL NOT NULL, high REAL NOT NULL, value REAL NOT NULL,
          system TEXT NOT NULL, code TEXT NOT NULL, unit TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS amount_value ON amount (param, value, rid);
        CREATE INDEX IF NOT EXISTS amount_rid ON amount (rid);
        PRAGMA user_version = 1;
        """;

    private readonly string connectionString;

    public RecordDatabase(string path)
    {
        connectionString = new SqliteConnectionStringBuilder { DataSource = path, DefaultTimeout = 30 }.ToString();
        using var connection = Open();
        connection.Execute("PRAGMA journal_mode = WAL");
        connection.Execute(Schema);
    }

    /// <summary>A connection that waits for the one writer rather than fail.</summary>
    public SqliteConnection Open()
    {
        var connection = new SqliteConnection(connectionString);
        connection.Open();
        // FULL: what was answered for is on the disk.
        connection.Execute("PRAGMA synchronous = FULL; PRAGMA busy_timeout = 30000;");
        return connection;
    }
}
