using Dapper;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>
/// Tables of the record. The standing version of a resource lies in <c>resource</c>, earlier ones in <c>history</c>. Each kind of search
/// value has its table, ordered by parameter (<c>key</c> is <c>Type.name</c>) and value, so that a search reads what it finds and little else.
/// </summary>
internal static class RecordSchema
{
    private const int Version = 4;

    private const string Tables = """
        CREATE TABLE resource (
          rid INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL,
          deleted INTEGER NOT NULL, json TEXT, UNIQUE (type, id));
        CREATE INDEX resource_standing ON resource (type, deleted, rid);
        CREATE TABLE history (
          type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL, deleted INTEGER NOT NULL,
          json TEXT, PRIMARY KEY (type, id, version));
        CREATE TABLE token (
          key TEXT NOT NULL, code TEXT NOT NULL, system TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, code, system, rid)) WITHOUT ROWID;
        CREATE TABLE reference (
          key TEXT NOT NULL, target TEXT NOT NULL, system TEXT NOT NULL, value TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, target, system, value, rid)) WITHOUT ROWID;
        CREATE INDEX reference_identifier ON reference (key, value, system, rid);
        CREATE TABLE span (
          key TEXT NOT NULL, low INTEGER NOT NULL, high INTEGER NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, low, high, rid)) WITHOUT ROWID;
        CREATE TABLE text (
          key TEXT NOT NULL, plain TEXT NOT NULL, exact TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, plain, exact, rid)) WITHOUT ROWID;
        CREATE TABLE amount (
          key TEXT NOT NULL, low REAL NOT NULL, high REAL NOT NULL, value REAL NOT NULL, system TEXT NOT NULL, code TEXT NOT NULL,
          unit TEXT NOT NULL, rid INTEGER NOT NULL, PRIMARY KEY (key, low, high, value, system, code, unit, rid)) WITHOUT ROWID;
        CREATE INDEX token_rid ON token (rid, key);
        CREATE INDEX reference_rid ON reference (rid, key);
        CREATE INDEX span_rid ON span (rid, key);
        CREATE INDEX text_rid ON text (rid, key);
        CREATE INDEX amount_rid ON amount (rid, key);
        PRAGMA user_version = 4;
        """;

    /// <summary>Names of the tables that hold search values.</summary>
    public static IReadOnlyList<string> IndexTables { get; } = ["token", "reference", "span", "text", "amount"];

    // Tables as they are now, but before 3 without the values of composite parameters, before 4 without answers of yes and no.
    private const int OldestWithTheseTables = 2;

    /// <summary>Makes the tables in a new file, and the values that search needs in one of the two layouts before.</summary>
    /// <exception cref="InvalidDataException">The file holds tables of another version.</exception>
    public static void Bring(SqliteConnection connection)
    {
        connection.Execute("PRAGMA journal_mode = WAL");
        // Two processes may start on one new file: the second waits here and finds the tables made.
        using var transaction = connection.BeginTransaction(deferred: false);
        var version = connection.ExecuteScalar<int>("PRAGMA user_version", transaction: transaction);
        var tables = connection.ExecuteScalar<int>("SELECT COUNT(*) FROM sqlite_schema", transaction: transaction);
        if (tables == 0)
        {
            connection.Execute(Tables, transaction: transaction);
        }
        else if (version is >= OldestWithTheseTables and < Version)
        {
            Reindexing.Run(connection, transaction);
            connection.Execute("PRAGMA user_version = 4", transaction: transaction);
        }
        else if (version != Version)
        {
            throw new InvalidDataException(
                $"{connection.DataSource} holds a database of layout {version}; this record needs layout {Version}. Give it a new file.");
        }

        transaction.Commit();
    }
}
