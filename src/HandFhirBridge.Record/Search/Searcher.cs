using Dapper;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Answers searches.</summary>
/// <param name="session">Where it reads.</param>
internal sealed class Searcher(RecordSession session)
{
    private const int MaxIterations = 8;
    private const string Columns = "r.type, r.id, r.version, r.updated, r.deleted, r.json";

    /// <summary>One page of matches, their total, and what they include.</summary>
    public SearchPage Find(SearchQuery query)
    {
        var (where, parameters) = Where(query);
        var total = session.Connection.ExecuteScalar<int>($"SELECT COUNT(*) FROM resource r WHERE {where}", parameters, session.Transaction);
        var matches = session.Rows(
            $"SELECT {Columns} FROM resource r WHERE {where} ORDER BY {Order(query, parameters)} LIMIT {query.Count} OFFSET {query.Offset}", parameters).ToList();
        return new(total, matches, Included(query, matches));
    }

    /// <summary>The matches of a conditional interaction: at most two, since more make no difference.</summary>
    public IReadOnlyList<StoredResource> FindAtMostTwo(SearchQuery query)
    {
        var (where, parameters) = Where(query);
        return [.. session.Rows($"SELECT {Columns} FROM resource r WHERE {where} LIMIT 2", parameters)];
    }

    private static (string Where, DynamicParameters Parameters) Where(SearchQuery query)
    {
        var parameters = new DynamicParameters();
        parameters.Add("type", query.Type);
        var conditions = new Conditions(parameters);
        var where = query.Criteria.Select(c => conditions.Of(c, "r")).Prepend("r.type = @type AND r.deleted = 0");
        return (string.Join(" AND ", where), parameters);
    }

    private static string Order(SearchQuery query, DynamicParameters parameters)
    {
        var keys = query.Sort.Select((key, i) =>
        {
            parameters.Add($"sort{i}", key.Parameter.Name);
            var (table, column) = key.Parameter.Type switch
            {
                SearchParamType.Date => ("span", key.Descending ? "high" : "low"),
                SearchParamType.String => ("text", "plain"),
                SearchParamType.Number or SearchParamType.Quantity => ("amount", "value"),
                SearchParamType.Reference => ("reference", "target"),
                _ => ("token", "code"),
            };
            var pick = key.Descending ? "MAX" : "MIN";
            return $"(SELECT {pick}({column}) FROM {table} WHERE rid = r.rid AND param = @sort{i}) {(key.Descending ? "DESC" : "ASC")} NULLS LAST";
        });
        // The internal number makes paging stable.
        return string.Join(", ", keys.Append("r.rid"));
    }

    private List<StoredResource> Included(SearchQuery query, List<StoredResource> matches)
    {
        var seen = matches.Select(m => m.Reference).ToHashSet();
        var included = new List<StoredResource>();
        var sources = matches;
        for (var round = 0; round < MaxIterations && sources.Count > 0; round++)
        {
            var found = query.Includes
                .Where(i => round == 0 || i.Iterate)
                .SelectMany(i => i.Reverse ? Reverse(i, sources) : Forward(i, sources))
                .Where(r => seen.Add(r.Reference))
                .ToList();
            included.AddRange(found);
            sources = found;
        }

        return included;
    }

    private IEnumerable<StoredResource> Forward(Inclusion inclusion, List<StoredResource> sources) => session.Rows(
        $"""
        SELECT DISTINCT {Columns} FROM resource s
          JOIN reference f ON f.rid = s.rid AND f.param = @param
          JOIN resource r ON r.type = substr(f.target, 1, instr(f.target, '/') - 1) AND r.id = substr(f.target, instr(f.target, '/') + 1)
          WHERE s.type = @source AND s.id IN @ids AND r.deleted = 0 AND (@target IS NULL OR r.type = @target)
        """,
        new
        {
            param = inclusion.Parameter.Name,
            source = inclusion.SourceType,
            ids = sources.Where(s => s.Type == inclusion.SourceType).Select(s => s.Id),
            target = inclusion.TargetType,
        });

    private IEnumerable<StoredResource> Reverse(Inclusion inclusion, List<StoredResource> targets) => session.Rows(
        $"""
        SELECT DISTINCT {Columns} FROM reference f JOIN resource r ON r.rid = f.rid
          WHERE f.param = @param AND f.target IN @targets AND r.type = @source AND r.deleted = 0
        """,
        new { param = inclusion.Parameter.Name, targets = targets.Select(t => t.Reference), source = inclusion.SourceType });
}
