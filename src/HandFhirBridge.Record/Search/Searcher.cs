using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Search;

/// <summary>Answers searches.</summary>
/// <param name="session">Where it reads.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class Searcher(RecordSession session, string baseUrl)
{
    private const string Columns = "r.type, r.id, r.version, r.updated, r.deleted, r.json";

    /// <summary>One page of matches, their total, and what they include.</summary>
    public SearchPage Find(SearchQuery query)
    {
        var (where, parameters) = Where(query);
        if (query is { WithTotal: true, After: null, Count: > 0 })
        {
            return First(query, where, parameters);
        }

        int? total = query.WithTotal ? session.Scalar<int>($"SELECT COUNT(*) FROM resource r WHERE {where}", parameters) : null;
        if (query.Count == 0)
        {
            return new(total, [], [], null);
        }

        var (matches, next) = Page(query, where, parameters);
        return new(total, matches, new Includes(session).Of(query.Includes, matches), next);
    }

    /// <summary>The matches of a conditional interaction: at most two, since more make no difference.</summary>
    public IReadOnlyList<StoredResource> FindAtMostTwo(SearchQuery query)
    {
        var (where, parameters) = Where(query);
        return [.. session.Rows($"SELECT {Columns} FROM resource r WHERE {where} LIMIT 2", parameters)];
    }

    /// <summary>All matches in their order, each with its first sort value.</summary>
    public IReadOnlyList<(StoredResource Resource, object Key)> All(SearchQuery query)
    {
        var (where, parameters) = Where(query);
        var sorting = new Sorting(query, parameters);
        using var reader = session.Reader($"SELECT {Columns}{sorting.Columns} FROM resource r WHERE {where} ORDER BY {sorting.OrderBy}", parameters);
        var matches = new List<(StoredResource, object)>();
        while (reader.Read())
        {
            matches.Add((new(reader.GetString(0), reader.GetString(1), reader.GetInt64(2), reader.GetString(3), false, reader.GetString(5)), reader.GetValue(6)));
        }

        return matches;
    }

    private (string Where, DynamicParameters Parameters) Where(SearchQuery query)
    {
        var parameters = new DynamicParameters();
        parameters.Add("type", query.Type);
        var criteria = new Conditions(parameters, baseUrl).All(
            query.Criteria, "r", (from, limit) => session.Scalar<int>($"SELECT COUNT(*) FROM (SELECT 1 {from} LIMIT {limit.ToString(CultureInfo.InvariantCulture)})", parameters));
        return ($"r.type = @type AND r.deleted = 0{(criteria.Length > 0 ? " AND " : "")}{criteria}", parameters);
    }

    // Total and first page of one pass: the conditions, which are most of the work, are tested once. Only numbers and sort values are read
    // of all matches; the resources of the page alone.
    private SearchPage First(SearchQuery query, string where, DynamicParameters parameters)
    {
        var sorting = new Sorting(query, parameters);
        var (total, numbers, last) = (0, new List<long>(), (PageMark?)null);
        using (var reader = session.Reader($"SELECT r.rid{sorting.Columns} FROM resource r WHERE {where} ORDER BY {sorting.OrderBy}", parameters))
        {
            while (reader.Read())
            {
                if (++total <= query.Count)
                {
                    numbers.Add(reader.GetInt64(0));
                    last = total == query.Count ? new([.. Enumerable.Range(1, query.Sort.Count).Select(reader.GetValue)], numbers[^1]) : null;
                }
            }
        }

        List<StoredResource> matches = [.. numbers.Select(session.Numbered)];
        return new(total, matches, new Includes(session).Of(query.Includes, matches), total > query.Count ? last : null);
    }

    private (List<StoredResource> Matches, PageMark? Next) Page(SearchQuery query, string where, DynamicParameters parameters)
    {
        var sorting = new Sorting(query, parameters);
        var behind = query.After is { } after ? $" AND {sorting.Behind(after)}" : "";
        parameters.Add("limit", query.Count + 1);
        // One more than the page holds tells whether another page follows.
        using var reader = session.Reader(
            $"SELECT {Columns}, r.rid{sorting.Columns} FROM resource r WHERE {where}{behind} ORDER BY {sorting.OrderBy} LIMIT @limit", parameters);
        var matches = new List<StoredResource>();
        PageMark? mark = null;
        while (reader.Read())
        {
            if (matches.Count == query.Count)
            {
                return (matches, mark);
            }

            matches.Add(new(reader.GetString(0), reader.GetString(1), reader.GetInt64(2), reader.GetString(3), false, reader.GetString(5)));
            mark = new([.. Enumerable.Range(7, query.Sort.Count).Select(reader.GetValue)], reader.GetInt64(6));
        }

        return (matches, null);
    }
}
