using System.Globalization;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>Writes search values with statements that are compiled once a transaction: a transaction has hundreds of them.</summary>
/// <param name="connection">Open connection.</param>
/// <param name="transaction">Transaction that writes.</param>
internal sealed class IndexWriter(SqliteConnection connection, SqliteTransaction transaction) : IDisposable
{
    private readonly Dictionary<string, SqliteCommand> commands = [];

    /// <summary>Puts <paramref name="rows"/> in the place of what stands for the resource with the number <paramref name="rid"/>.</summary>
    public void Replace(long rid, IEnumerable<IndexRow> rows, bool stood)
    {
        if (stood)
        {
            foreach (var table in RecordSchema.IndexTables)
            {
                Run(Command(table, $"DELETE FROM {table} WHERE rid = $0 OR rid BETWEEN $1 AND $2", 3), [rid, -(((rid + 1) * IndexRow.Groups) - 1), -(rid * IndexRow.Groups)]);
            }
        }

        foreach (var row in rows)
        {
            var places = string.Join(", ", Enumerable.Range(0, row.Columns.Count + 1).Select(i => "$" + i.ToString(CultureInfo.InvariantCulture)));
            // IGNORE: the same value twice in one resource is one row.
            Run(Command("+" + row.Table, $"INSERT OR IGNORE INTO {row.Table} VALUES ({places})", row.Columns.Count + 1), [.. row.Columns, row.Owner(rid)]);
        }
    }

    public void Dispose()
    {
        foreach (var command in commands.Values)
        {
            command.Dispose();
        }
    }

    private static void Run(SqliteCommand command, ReadOnlySpan<object> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        command.ExecuteNonQuery();
    }

    private SqliteCommand Command(string name, string sql, int parameters)
    {
        if (commands.TryGetValue(name, out var known))
        {
            return known;
        }

        var command = connection.CreateCommand();
        command.Transaction = transaction;
#pragma warning disable CA2100 // The text is made of this class's own constants; values are parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        for (var i = 0; i < parameters; i++)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = "$" + i.ToString(CultureInfo.InvariantCulture) });
        }

        return commands[name] = command;
    }
}
