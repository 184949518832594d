using Dapper;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>The database file: connections to it, and the turn of its one writer.</summary>
internal sealed class RecordDatabase : IDisposable
{
    private readonly SemaphoreSlim writer = new(1, 1);
    private readonly TimeProvider clock;
    private readonly string connectionString;
    private readonly string? temporary;

    public RecordDatabase(string? path, TimeProvider clock)
    {
        this.clock = clock;
        temporary = path is null ? Directory.CreateTempSubdirectory("fhir-record-").FullName : null;
        var file = Path.GetFullPath(path ?? Path.Combine(temporary!, "record.db"));
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        connectionString = new SqliteConnectionStringBuilder { DataSource = file, DefaultTimeout = 30 }.ToString();
        using var connection = Open();
        RecordSchema.Bring(connection);
    }

    /// <summary>Reads one consistent state, whatever is written meanwhile.</summary>
    public RecordSession Read() => new(Open(), clock, write: false, () => { });

    /// <summary>
    /// Opens the one write transaction; others of this process wait here, in order, and other processes at SQLite's own lock. What is not
    /// committed is undone.
    /// </summary>
    public async Task<RecordSession> WriteAsync(CancellationToken cancellation)
    {
        await writer.WaitAsync(cancellation);
        try
        {
            return new(Open(), clock, write: true, () => writer.Release());
        }
        catch
        {
            writer.Release();
            throw;
        }
    }

    public void Dispose()
    {
        writer.Dispose();
        using (var connection = new SqliteConnection(connectionString))
        {
            SqliteConnection.ClearPool(connection);
        }

        if (temporary is not null)
        {
            Directory.Delete(temporary, recursive: true);
        }
    }

    private SqliteConnection Open()
    {
        var connection = new SqliteConnection(connectionString);
        connection.Open();
        // FULL: what was answered for is on the disk.
        connection.Execute("PRAGMA synchronous = FULL; PRAGMA busy_timeout = 30000; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -16000;");
        return connection;
    }
}
