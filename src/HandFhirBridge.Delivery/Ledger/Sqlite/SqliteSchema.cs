using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>Brings a ledger's file to the schema this version works with. Times are milliseconds since 1970, UTC.</summary>
internal static class SqliteSchema
{
    private static readonly string[] Migrations =
    [
        """
        CREATE TABLE sessions (
          id INTEGER PRIMARY KEY,
          site TEXT NOT NULL,
          session_id TEXT NOT NULL,
          revision INTEGER NOT NULL CHECK (revision > 0),
          content_hash TEXT NOT NULL,
          target TEXT NOT NULL,
          patient_key TEXT NOT NULL,
          state TEXT NOT NULL CHECK (state IN ('accepted', 'sending', 'delivered', 'held', 'failed', 'superseded')),
          accepted_at INTEGER NOT NULL,
          next_attempt_at INTEGER,
          attempts INTEGER NOT NULL DEFAULT 0,
          in_doubt INTEGER NOT NULL DEFAULT 0,
          lease_owner TEXT,
          leased_at INTEGER,
          lease_until INTEGER,
          problem_code TEXT,
          reason TEXT,
          patient_id TEXT,
          patient_version TEXT,
          report_id TEXT,
          delivered_at INTEGER,
          UNIQUE (site, session_id, revision));
        CREATE INDEX sessions_due ON sessions (next_attempt_at, id) WHERE state = 'accepted';
        CREATE INDEX sessions_sending ON sessions (patient_key, lease_until) WHERE state = 'sending';
        CREATE INDEX sessions_unsent ON sessions (accepted_at) WHERE state IN ('accepted', 'sending', 'held', 'failed');
        CREATE INDEX sessions_state ON sessions (state);
        CREATE TABLE payloads (
          session INTEGER PRIMARY KEY REFERENCES sessions (id),
          scheme TEXT,
          document BLOB NOT NULL,
          bundle BLOB NOT NULL,
          patient BLOB NOT NULL);
        CREATE TABLE attempts (
          session INTEGER NOT NULL REFERENCES sessions (id),
          number INTEGER NOT NULL,
          started_at INTEGER NOT NULL,
          duration_ms INTEGER NOT NULL,
          target TEXT NOT NULL,
          rung INTEGER,
          status TEXT NOT NULL,
          http_status INTEGER,
          problem_code TEXT,
          scheme TEXT,
          answer BLOB,
          PRIMARY KEY (session, number)) WITHOUT ROWID;
        """,
        """
        CREATE TABLE decisions (
          session INTEGER NOT NULL REFERENCES sessions (id),
          number INTEGER NOT NULL,
          decided_at INTEGER NOT NULL,
          decided_by TEXT NOT NULL,
          action TEXT NOT NULL,
          patient_id TEXT,
          scheme TEXT,
          reason BLOB NOT NULL,
          PRIMARY KEY (session, number)) WITHOUT ROWID;
        """,
    ];

    /// <summary>Applies what is missing, in one transaction.</summary>
    /// <exception cref="LedgerException">The file is of a later version.</exception>
    public static void Bring(SqliteConnection connection, TimeProvider clock)
    {
        connection.Execute("PRAGMA journal_mode = WAL");
        using var transaction = connection.BeginTransaction(deferred: false);
        connection.Execute("CREATE TABLE IF NOT EXISTS migrations (version INTEGER PRIMARY KEY, applied_at TEXT NOT NULL)", transaction: transaction);
        var version = connection.ExecuteScalar<int>("SELECT coalesce(max(version), 0) FROM migrations", transaction: transaction);
        if (version > Migrations.Length)
        {
            throw new LedgerException(LedgerProblems.NewerSchema.At(
                "Ledger", $"The ledger has schema {version}; this version of the program knows schema {Migrations.Length}.", version.ToString(CultureInfo.InvariantCulture)));
        }

        foreach (var next in Enumerable.Range(version + 1, Migrations.Length - version))
        {
            connection.Execute(Migrations[next - 1], transaction: transaction);
            connection.Execute(
                "INSERT INTO migrations VALUES (@next, @now)",
                new { next, now = clock.GetUtcNow().ToString("O", CultureInfo.InvariantCulture) },
                transaction);
        }

        transaction.Commit();
    }
}
