using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>
/// Tables of the record. The standing version of a resource lies in <c>resource</c>, earlier ones in <c>history</c>. Each kind of search
/// value has its table, ordered by path (<c>key</c> is that of <see cref="IndexPath"/>) and value, so that a search reads what it finds and
/// little else.
/// </summary>
internal static class RecordSchema
{
    private const int Version = 5;

    private const string Resources = """
        CREATE TABLE resource (
          rid INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL,
          deleted INTEGER NOT NULL, json TEXT, UNIQUE (type, id));
        CREATE INDEX resource_standing ON resource (type, deleted, rid);
        CREATE TABLE history (
          type TEXT NOT NULL, id TEXT NOT NULL, version INTEGER NOT NULL, updated TEXT NOT NULL, deleted INTEGER NOT NULL,
          json TEXT, PRIMARY KEY (type, id, version));
        """;

    private const string Values = """
        CREATE TABLE token (
          key INTEGER NOT NULL, code TEXT NOT NULL, system TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, code, system, rid)) WITHOUT ROWID;
        CREATE TABLE reference (
          key INTEGER NOT NULL, target TEXT NOT NULL, system TEXT NOT NULL, value TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, target, system, value, rid)) WITHOUT ROWID;
        CREATE INDEX reference_identifier ON reference (key, value, system, rid);
        CREATE TABLE span (
          key INTEGER NOT NULL, low INTEGER NOT NULL, high INTEGER NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, low, high, rid)) WITHOUT ROWID;
        CREATE TABLE text (
          key INTEGER NOT NULL, plain TEXT NOT NULL, exact TEXT NOT NULL, rid INTEGER NOT NULL,
          PRIMARY KEY (key, plain, exact, rid)) WITHOUT ROWID;
        CREATE TABLE amount (
          key INTEGER NOT NULL, low REAL NOT NULL, high REAL NOT NULL, value REAL NOT NULL, system TEXT NOT NULL, code TEXT NOT NULL,
          unit TEXT NOT NULL, rid INTEGER NOT NULL, PRIMARY KEY (key, low, high, value, system, code, unit, rid)) WITHOUT ROWID;
        CREATE INDEX token_rid ON token (rid, key);
        CREATE INDEX reference_rid ON reference (rid, key);
        CREATE INDEX span_rid ON span (rid, key);
        CREATE INDEX text_rid ON text (rid, key);
        CREATE INDEX amount_rid ON amount (rid, key);
        """;

    /// <summary>Names of the tables that hold search values.</summary>
    public static IReadOnlyList<string> IndexTables { get; } = ["token", "reference", "span", "text", "amount"];

    // From here on resources lie in tables as they do now; search values did not always.
    private const int OldestWithTheseResources = 2;

    // Paths are those of the SDK: with another build of it they may be others, and their keys too.
    private static readonly int Sdk = typeof(ModelInfo).Module.ModuleVersionId.GetHashCode();

    private static string Marks => string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {Version}; PRAGMA application_id = {Sdk};");

    /// <summary>Makes the tables in a new file, and the search values anew in one of an earlier layout or another SDK.</summary>
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
            connection.Execute(Resources + Values + Marks, transaction: transaction);
        }
        else if (version is >= OldestWithTheseResources and < Version || (version == Version && connection.ExecuteScalar<int>("PRAGMA application_id", transaction: transaction) != Sdk))
        {
            connection.Execute(string.Concat(IndexTables.Select(table => $"DROP TABLE {table};")) + Values + Marks, transaction: transaction);
            Reindexing.Run(connection, transaction);
        }
        else if (version != Version)
        {
            throw new InvalidDataException(
                $"{connection.DataSource} holds a database of layout {version}; this record needs layout {Version}. Give it a new file.");
        }

        transaction.Commit();
    }
}
