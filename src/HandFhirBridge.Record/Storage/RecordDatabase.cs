using Dapper;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>The database file: connections to it, and the turn of its one writer.</summary>
internal sealed class RecordDatabase : IDisposable
{
    private readonly SemaphoreSlim turn = new(1, 1);
    private readonly RecordClock clock;
    private readonly string connectionString;
    private readonly string? temporary;
    private RecordWriter? writer;

    public RecordDatabase(string? path, TimeProvider clock)
    {
        this.clock = new(clock);
        temporary = path is null ? Directory.CreateTempSubdirectory("fhir-record-").FullName : null;
        var file = Path.GetFullPath(path ?? Path.Combine(temporary!, "record.db"));
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        ExportFolder = Path.Combine(Path.GetDirectoryName(file)!, Path.GetFileNameWithoutExtension(file) + "-exports");
        connectionString = new SqliteConnectionStringBuilder { DataSource = file, DefaultTimeout = 30 }.ToString();
        using var connection = Open();
        RecordSchema.Bring(connection);
    }

    /// <summary>Where files of exports lie, beside the database; made by those who write there.</summary>
    public string ExportFolder { get; }

    /// <summary>Reads one consistent state, whatever is written meanwhile.</summary>
    public RecordSession Read() => new(Open(), clock);

    /// <summary>
    /// Opens the one write transaction; others of this process wait here, in order, and other processes at SQLite's own lock. What is not
    /// committed is undone.
    /// </summary>
    public async Task<RecordSession> WriteAsync(CancellationToken cancellation)
    {
        await turn.WaitAsync(cancellation);
        try
        {
            writer ??= new(Open());
            return new(writer, clock, () => turn.Release());
        }
        catch
        {
            turn.Release();
            throw;
        }
    }

    /// <summary>
    /// The state as of an instant: everything dated up to it is in it, and whatever is written from then on is dated later. It is taken in
    /// the writer's turn, since a write is dated before it is committed.
    /// </summary>
    public async Task<(RecordSession Session, DateTimeOffset Moment)> SnapshotAsync(CancellationToken cancellation)
    {
        using var still = await WriteAsync(cancellation);
        var session = Read();
        try
        {
            // SQLite takes the state at the first read of a transaction, not at its beginning.
            session.Scalar<long>("SELECT EXISTS (SELECT 1 FROM resource)", new { });
            return (session, clock.Snapshot());
        }
        catch
        {
            session.Dispose();
            throw;
        }
    }

    public void Dispose()
    {
        writer?.Dispose();
        turn.Dispose();
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
        // FULL: what was answered for is on the disk. The log is copied into the database every 64 MiB, not every 4: the pages that hold
        // search values change with each session, and each copy writes them but once.
        connection.Execute(
            "PRAGMA synchronous = FULL; PRAGMA busy_timeout = 30000; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -16000; PRAGMA wal_autocheckpoint = 16000;");
        return connection;
    }
}
