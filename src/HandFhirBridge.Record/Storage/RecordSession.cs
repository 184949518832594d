using System.Data;
using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>One connection, and for writers one transaction, in which resources are read and written.</summary>
internal sealed class RecordSession : IDisposable
{
    private const string Columns = "type, id, version, updated, deleted, json";
    private readonly SqliteConnection connection;
    private readonly SqliteTransaction? transaction;
    private readonly TimeProvider clock;

    public RecordSession(RecordDatabase database, TimeProvider clock, bool write)
    {
        connection = database.Open();
        // Microsoft.Data.Sqlite begins IMMEDIATE unless told to defer: the write lock is taken before anything is read.
        transaction = write ? connection.BeginTransaction(IsolationLevel.Serializable, deferred: false) : null;
        this.clock = clock;
    }

    public SqliteConnection Connection => connection;

    public SqliteTransaction? Transaction => transaction;

    public StoredResource? Read(string type, string id) =>
        Rows($"SELECT {Columns} FROM resource WHERE type = @type AND id = @id", new { type, id }).SingleOrDefault();

    public StoredResource? ReadVersion(string type, string id, long version) =>
        Rows($"SELECT {Columns} FROM history WHERE type = @type AND id = @id AND version = @version", new { type, id, version }).SingleOrDefault();

    public IReadOnlyList<StoredResource> History(string type, string id) =>
        [.. Rows($"SELECT {Columns} FROM history WHERE type = @type AND id = @id ORDER BY version DESC", new { type, id })];

    public IEnumerable<StoredResource> Rows(string sql, object parameters) => connection
        .Query<(string Type, string Id, long Version, string Updated, long Deleted, string? Json)>(sql, parameters, transaction)
        .Select(r => new StoredResource(r.Type, r.Id, r.Version, r.Updated, r.Deleted != 0, r.Json));

    /// <summary>Stores a new version of <paramref name="resource"/> under its id.</summary>
    public StoredResource Write(Resource resource)
    {
        var id = resource.Id ?? throw new ArgumentException("A resource is stored under an id.", nameof(resource));
        var version = (Read(resource.TypeName, id)?.Version ?? 0) + 1;
        var updated = Now();
        resource.Meta ??= new Meta();
        resource.Meta.VersionId = version.ToString(CultureInfo.InvariantCulture);
        resource.Meta.LastUpdatedElement = new Instant(updated);
        var json = FhirJsonSerializer.Default.SerializeToString(resource);
        var stored = new StoredResource(resource.TypeName, id, version, Text(updated), false, json);
        var rid = Store(stored);
        foreach (var row in IndexValues.Of(resource))
        {
            connection.Execute(row.Sql, row.With(rid), transaction);
        }

        return stored;
    }

    /// <summary>Marks a resource as deleted; its history stays.</summary>
    public StoredResource Delete(StoredResource current)
    {
        var stored = current with
        {
            Version = current.Version + 1,
            Deleted = true,
            Json = null,
            Updated = Text(Now()),
        };
        Store(stored);
        return stored;
    }

    public void Commit() => transaction?.Commit();

    public void Dispose()
    {
        transaction?.Dispose();
        connection.Dispose();
    }

    // Milliseconds: finer instants would not survive other implementations.
    private DateTimeOffset Now() => new(clock.GetUtcNow().Ticks / TimeSpan.TicksPerMillisecond * TimeSpan.TicksPerMillisecond, TimeSpan.Zero);

    private static string Text(DateTimeOffset moment) => moment.ToString("yyyy-MM-ddTHH:mm:ss.fffK", CultureInfo.InvariantCulture);

    private long Store(StoredResource stored)
    {
        var rid = connection.ExecuteScalar<long>(
            """
            INSERT INTO resource (type, id, version, updated, deleted, json) VALUES (@Type, @Id, @Version, @Updated, @Deleted, @Json)
            ON CONFLICT (type, id) DO UPDATE SET version = @Version, updated = @Updated, deleted = @Deleted, json = @Json RETURNING rid
            """,
            stored,
            transaction);
        connection.Execute(
            "INSERT INTO history (type, id, version, updated, deleted, json) VALUES (@Type, @Id, @Version, @Updated, @Deleted, @Json)",
            stored,
            transaction);
        connection.Execute(
            """
            DELETE FROM token WHERE rid = @rid; DELETE FROM reference WHERE rid = @rid; DELETE FROM span WHERE rid = @rid;
            DELETE FROM text WHERE rid = @rid; DELETE FROM amount WHERE rid = @rid;
            """,
            new { rid },
            transaction);
        return rid;
    }
}
