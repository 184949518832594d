using System.Globalization;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>Writes search values with statements that are compiled once a connection.</summary>
/// <param name="connection">Open connection, in whose transaction they are written.</param>
internal sealed class IndexWriter(SqliteConnection connection) : IDisposable
{
    private readonly Dictionary<string, PreparedStatement> inserts = [];
    private readonly List<PreparedStatement> deletes = [];

    /// <summary>Puts <paramref name="rows"/> in the place of what stands for the resource with the number <paramref name="rid"/>.</summary>
    public void Replace(long rid, IEnumerable<IndexRow> rows, bool stood)
    {
        if (stood)
        {
            Delete(rid);
        }

        foreach (var row in rows)
        {
            Insert(row).Run([.. row.Columns, row.Owner(rid)]);
        }
    }

    public void Dispose()
    {
        foreach (var statement in inserts.Values.Concat(deletes))
        {
            statement.Dispose();
        }
    }

    private void Delete(long rid)
    {
        if (deletes.Count == 0)
        {
            deletes.AddRange(RecordSchema.IndexTables.Select(table => new PreparedStatement(connection, $"DELETE FROM {table} WHERE rid = ?1 OR rid BETWEEN ?2 AND ?3")));
        }

        foreach (var statement in deletes)
        {
            statement.Run(rid, -(((rid + 1) * IndexRow.Groups) - 1), -(rid * IndexRow.Groups));
        }
    }

    private PreparedStatement Insert(IndexRow row)
    {
        if (!inserts.TryGetValue(row.Table, out var statement))
        {
            var places = string.Join(", ", Enumerable.Range(1, row.Columns.Count + 1).Select(i => "?" + i.ToString(CultureInfo.InvariantCulture)));
            // IGNORE: the same value twice in one resource is one row.
            inserts[row.Table] = statement = new(connection, $"INSERT OR IGNORE INTO {row.Table} VALUES ({places})");
        }

        return statement;
    }
}
