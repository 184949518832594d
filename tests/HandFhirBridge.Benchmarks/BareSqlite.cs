using System.Globalization;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Benchmarks;

/// <summary>One table of bare SQLite with the JSON of resources, as durable as the record: what the record is measured beside.</summary>
internal sealed class BareSqlite : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("hfb-bare-");
    private readonly SqliteConnection connection;
    private readonly SqliteCommand insert;
    private readonly SqliteCommand find;

    internal BareSqlite()
    {
        connection = new(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder.FullName, "bare.db"), Pooling = false }.ToString());
        connection.Open();
        using var tables = connection.CreateCommand();
        tables.CommandText = """
            PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
            CREATE TABLE resource (place TEXT PRIMARY KEY, clinic TEXT, code TEXT, time TEXT, json TEXT NOT NULL);
            CREATE INDEX asked ON resource (clinic, code, time);
            """;
        tables.ExecuteNonQuery();
        insert = Command("INSERT OR REPLACE INTO resource VALUES ($0, $1, $2, $3, $4)", 5);
        find = Command("SELECT json FROM resource WHERE clinic = $0 AND code = $1 AND time >= $2 AND time < $3 LIMIT 50", 4);
    }

    internal void Insert(IEnumerable<BareRow> rows)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        insert.Transaction = transaction;
        foreach (var row in rows)
        {
            object?[] values = [row.Place, row.Clinic, row.Code, row.Time, row.Json];
            for (var i = 0; i < values.Length; i++)
            {
                insert.Parameters[i].Value = values[i] ?? DBNull.Value;
            }

            insert.ExecuteNonQuery();
        }

        transaction.Commit();
    }

    /// <summary>How many characters of JSON the answer holds.</summary>
    internal int Find(string clinic, string code, DateOnly from, DateOnly to)
    {
        object[] values = [clinic, code, from.ToString("o", CultureInfo.InvariantCulture), to.AddDays(1).ToString("o", CultureInfo.InvariantCulture)];
        for (var i = 0; i < values.Length; i++)
        {
            find.Parameters[i].Value = values[i];
        }

        using var rows = find.ExecuteReader();
        var length = 0;
        while (rows.Read())
        {
            length += rows.GetString(0).Length;
        }

        return length;
    }

    public void Dispose()
    {
        insert.Dispose();
        find.Dispose();
        connection.Dispose();
        folder.Delete(recursive: true);
    }

    private SqliteCommand Command(string sql, int parameters)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // The text is this class's own.
        command.CommandText = sql;
#pragma warning restore CA2100
        for (var i = 0; i < parameters; i++)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = "$" + i.ToString(CultureInfo.InvariantCulture) });
        }

        return command;
    }
}
