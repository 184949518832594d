using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace HandFhirBridge.Record.Storage;

/// <summary>The connection that writes, kept from one transaction to the next together with its compiled statements.</summary>
/// <param name="connection">Open connection; it ends with this.</param>
internal sealed class RecordWriter(SqliteConnection connection) : IDisposable
{
    private readonly PreparedStatement standing = new(
        connection, "SELECT type, id, version, updated, deleted, json FROM resource WHERE type = ?1 AND id = ?2");

    private readonly PreparedStatement keep = new(
        connection,
        """
        INSERT INTO history (type, id, version, updated, deleted, json)
          SELECT type, id, version, updated, deleted, json FROM resource WHERE type = ?1 AND id = ?2
        """);

    private readonly PreparedStatement put = new(
        connection,
        """
        INSERT INTO resource (type, id, version, updated, deleted, json) VALUES (?1, ?2, ?3, ?4, ?5, ?6)
          ON CONFLICT (type, id) DO UPDATE SET version = ?3, updated = ?4, deleted = ?5, json = ?6 RETURNING rid
        """);

    private readonly IndexWriter index = new(connection);

    public SqliteConnection Connection => connection;

    /// <summary>The version that stands, which may be a deletion; null where there never was one.</summary>
    public StoredResource? Standing(string type, string id) => standing.One(
        static row => new StoredResource(
            raw.sqlite3_column_text(row, 0).utf8_to_string(),
            raw.sqlite3_column_text(row, 1).utf8_to_string(),
            raw.sqlite3_column_int64(row, 2),
            raw.sqlite3_column_text(row, 3).utf8_to_string(),
            raw.sqlite3_column_int64(row, 4) != 0,
            raw.sqlite3_column_type(row, 5) == raw.SQLITE_NULL ? null : raw.sqlite3_column_text(row, 5).utf8_to_string()),
        type,
        id);

    /// <summary>Puts a version in the place of the one that stands, which goes into the history.</summary>
    public void Put(StoredResource stored, bool stood, IEnumerable<IndexRow> values)
    {
        if (stood)
        {
            keep.Run(stored.Type, stored.Id);
        }

        var rid = put.One(
            static row => raw.sqlite3_column_int64(row, 0), stored.Type, stored.Id, stored.Version, stored.Updated, stored.Deleted ? 1L : 0L, stored.Json);
        index.Replace(rid, values, stood);
    }

    public void Dispose()
    {
        standing.Dispose();
        keep.Dispose();
        put.Dispose();
        index.Dispose();
        connection.Dispose();
    }
}
