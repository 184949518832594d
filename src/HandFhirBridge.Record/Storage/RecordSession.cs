using System.Data;
using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>One transaction in which resources are read and, by the one writer, written.</summary>
internal sealed class RecordSession : IDisposable
{
    private const string Columns = "type, id, version, updated, deleted, json";
    private readonly SqliteConnection connection;
    private readonly SqliteTransaction transaction;
    private readonly RecordWriter? writer;
    private readonly TimeProvider clock;
    private readonly Action end;

    /// <summary>Reads one state.</summary>
    /// <param name="connection">Open connection, which ends with the session.</param>
    /// <param name="clock">Gives the time.</param>
    public RecordSession(SqliteConnection connection, TimeProvider clock)
    {
        (this.connection, this.clock, end) = (connection, clock, connection.Dispose);
        try
        {
            transaction = connection.BeginTransaction(deferred: true);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Reads and writes.</summary>
    /// <param name="writer">What it writes with, which outlives the session.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="end">Lets the next one write.</param>
    public RecordSession(RecordWriter writer, TimeProvider clock, Action end)
    {
        (this.writer, connection, this.clock, this.end) = (writer, writer.Connection, clock, end);
        // Not deferred is BEGIN IMMEDIATE: the write lock is taken before anything is read.
        transaction = connection.BeginTransaction(deferred: false);
    }

    public StoredResource? Read(string type, string id) => writer is not null
        ? writer.Standing(type, id)
        : Rows($"SELECT {Columns} FROM resource WHERE type = @type AND id = @id", new { type, id }).SingleOrDefault();

    /// <summary>The versions of a resource, latest first; one of them where <paramref name="version"/> is given.</summary>
    public IReadOnlyList<StoredResource> Versions(string type, string id, long? version = null) =>
    [
        .. Rows(
            $"""
            SELECT {Columns} FROM resource WHERE type = @type AND id = @id AND (@version IS NULL OR version = @version)
            UNION ALL SELECT {Columns} FROM history WHERE type = @type AND id = @id AND (@version IS NULL OR version = @version)
            ORDER BY version DESC
            """,
            new { type, id, version }),
    ];

    public IEnumerable<StoredResource> Rows(string sql, object parameters) => connection
        .Query<(string Type, string Id, long Version, string Updated, long Deleted, string? Json)>(sql, parameters, transaction)
        .Select(r => new StoredResource(r.Type, r.Id, r.Version, r.Updated, r.Deleted != 0, r.Json));

    /// <summary>The resource with this number, which must stand.</summary>
    public StoredResource Numbered(long rid) => Rows($"SELECT {Columns} FROM resource WHERE rid = @rid", new { rid }).Single();

    public T? Scalar<T>(string sql, object parameters) => connection.ExecuteScalar<T>(sql, parameters, transaction);

    public void Execute(string sql, object parameters) => connection.Execute(sql, parameters, transaction);

    public IDataReader Reader(string sql, object parameters) => connection.ExecuteReader(sql, parameters, transaction);

    /// <summary>Stores a new version under the resource's id; version and instant are this server's.</summary>
    public StoredResource Write(ReceivedResource received)
    {
        var resource = received.Resource;
        var id = resource.Id ?? throw new ArgumentException("A resource is stored under an id.", nameof(received));
        var current = Read(resource.TypeName, id);
        var (version, now) = ((current?.Version ?? 0) + 1, Now());
        resource.Meta ??= new Meta();
        resource.Meta.VersionId = version.ToString(CultureInfo.InvariantCulture);
        resource.Meta.LastUpdatedElement = new Instant(now);
        var stored = new StoredResource(resource.TypeName, id, version, Text(now), false, received.Text());
        Writer.Put(stored, stood: current is not null, IndexValues.Of(resource));
        return stored;
    }

    /// <summary>Marks a resource as deleted; what it was stays in its history.</summary>
    public StoredResource Delete(StoredResource current)
    {
        var stored = current with { Version = current.Version + 1, Updated = Text(Now()), Deleted = true, Json = null };
        Writer.Put(stored, stood: true, []);
        return stored;
    }

    /// <summary>Makes what was written last; only then may it be answered for.</summary>
    public void Commit() => transaction.Commit();

    public void Dispose()
    {
        transaction.Dispose();
        end();
    }

    private RecordWriter Writer => writer ?? throw new InvalidOperationException("This session only reads.");

    // Milliseconds: finer instants do not survive every client.
    private DateTimeOffset Now() => new(clock.GetUtcNow().Ticks / TimeSpan.TicksPerMillisecond * TimeSpan.TicksPerMillisecond, TimeSpan.Zero);

    private static string Text(DateTimeOffset moment) => moment.ToString("yyyy-MM-ddTHH:mm:ss.fffK", CultureInfo.InvariantCulture);
}
