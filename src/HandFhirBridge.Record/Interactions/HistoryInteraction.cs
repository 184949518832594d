using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>
/// History of a resource, of a type and of the whole system (R4 http.html#history), newest first. A page begins behind the last version of
/// the one before, so that what is written meanwhile moves nothing.
/// </summary>
/// <param name="session">Where it reads.</param>
internal sealed class HistoryInteraction(RecordSession session)
{
    // Versions are dated in whole milliseconds: "at or after" a finer instant begins with the next one.
    private const long Up = TimeSpan.TicksPerMillisecond - 1;

    /// <exception cref="RecordRefusal">404: there never was such a resource.</exception>
    public HistoryPage Run(HistoryRequest request)
    {
        if (request is { Type: { } type, Id: { } id } && session.Read(type, id) is null)
        {
            throw RecordRefusal.NotFound($"There is no {type}/{id}.");
        }

        var (keys, parameters) = Keys(request);
        var total = session.Scalar<int>($"SELECT COUNT(*) FROM ({keys})", parameters);
        if (request.Count == 0)
        {
            return new(total, [], null);
        }

        // The keys are sorted alone; the resources of one page are fetched by them.
        var versions = session.Rows(
            $"""
            SELECT k.type, k.id, k.version, k.updated, k.deleted, COALESCE(
                (SELECT r.json FROM resource r WHERE r.type = k.type AND r.id = k.id AND r.version = k.version),
                (SELECT h.json FROM history h WHERE h.type = k.type AND h.id = k.id AND h.version = k.version))
              FROM (SELECT * FROM ({keys}){Behind(request, parameters)} ORDER BY {Order(request)} LIMIT @limit) k ORDER BY {Order(request)}
            """,
            parameters).ToList();
        if (versions.Count <= request.Count)
        {
            return new(total, versions, null);
        }

        versions.RemoveAt(request.Count);
        var last = versions[^1];
        return new(total, versions, new(request.Id is null ? [last.Updated, last.Type, last.Id] : [], last.Version));
    }

    private static (string Sql, DynamicParameters Parameters) Keys(HistoryRequest request)
    {
        var parameters = new DynamicParameters();
        parameters.Add("limit", request.Count + 1);
        var conditions = new List<string> { "TRUE" };
        Add(request.Type, "type", "s.type = @type");
        Add(request.Id, "id", "s.id = @id");
        Add(Text(request.Since?.Low, Up), "since", "s.updated >= @since");
        Add(Text(request.At?.High, 0), "high", "s.updated <= @high");
        // A version was current until the next one was written.
        Add(Text(request.At?.Low, 0), "low", $"NOT EXISTS ({Next("history")}) AND NOT EXISTS ({Next("resource")})");
        var where = string.Join(" AND ", conditions);
        return ($"SELECT type, id, version, updated, deleted FROM resource s WHERE {where} UNION ALL SELECT type, id, version, updated, deleted FROM history s WHERE {where}", parameters);

        void Add(string? value, string name, string condition)
        {
            if (value is not null)
            {
                parameters.Add(name, value);
                conditions.Add(condition);
            }
        }

        static string Next(string table) => $"SELECT 1 FROM {table} n WHERE n.type = s.type AND n.id = s.id AND n.version = s.version + 1 AND n.updated <= @low";
    }

    private static string Behind(HistoryRequest request, DynamicParameters parameters)
    {
        if (request.After is not { } after)
        {
            return "";
        }

        parameters.Add("version", after.Rid);
        foreach (var (i, key) in after.Keys.Index())
        {
            parameters.Add($"key{i}", key);
        }

        return request.Id is null ? " WHERE (updated, type, id, version) < (@key0, @key1, @key2, @version)" : " WHERE version < @version";
    }

    private static string Order(HistoryRequest request) => request.Id is null ? "updated DESC, type DESC, id DESC, version DESC" : "version DESC";

    private static string? Text(long? ticks, long rounding) => ticks is { } t
        ? new DateTimeOffset(Math.Min(t + rounding, DateTime.MaxValue.Ticks), TimeSpan.Zero).ToString("yyyy-MM-ddTHH:mm:ss.fffK", CultureInfo.InvariantCulture)
        : null;
}
