using System.Globalization;
using Dapper;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>The order of matches as SQL: the sort values of each, and what lies behind a page mark (R4 search.html#_sort).</summary>
internal sealed class Sorting
{
    private readonly List<(string Sql, bool Descending)> keys = [];
    private readonly DynamicParameters parameters;

    public Sorting(SearchQuery query, DynamicParameters parameters)
    {
        this.parameters = parameters;
        parameters.Add("last", PageMark.Last);
        foreach (var (parameter, descending) in query.Sort)
        {
            keys.Add((Value(parameter, descending), descending));
        }
    }

    /// <summary>Columns to select behind others, each with its comma.</summary>
    public string Columns => string.Concat(keys.Select((key, i) => string.Create(CultureInfo.InvariantCulture, $", {key.Sql} AS k{i}")));

    public string OrderBy => string.Concat(keys.Select((key, i) => string.Create(CultureInfo.InvariantCulture, $"k{i}{(key.Descending ? " DESC" : "")}, "))) + "r.rid";

    /// <summary>Condition that holds for what comes after <paramref name="mark"/>.</summary>
    public string Behind(PageMark mark)
    {
        parameters.Add("afterRid", mark.Rid);
        var condition = "r.rid > @afterRid";
        for (var i = keys.Count - 1; i >= 0; i--)
        {
            parameters.Add($"after{i}", mark.Keys[i]);
            condition = $"({keys[i].Sql} {(keys[i].Descending ? '<' : '>')} @after{i} OR ({keys[i].Sql} = @after{i} AND {condition}))";
        }

        return condition;
    }

    // Several values: the least sorts ascending, the greatest descending. Matches without a value come last both ways.
    private static string Value(SearchParameter parameter, bool descending)
    {
        var (table, column) = parameter.Type switch
        {
            SearchParamType.Date => ("span", descending ? "high" : "low"),
            SearchParamType.String => ("text", "plain"),
            SearchParamType.Number or SearchParamType.Quantity => ("amount", "value"),
            SearchParamType.Reference => ("reference", "target"),
            _ => ("token", "code"),
        };
        var pick = $"(SELECT {(descending ? "MAX" : "MIN")}({column}) FROM {table} v WHERE v.rid = r.rid AND v.key IN ({string.Join(", ", parameter.Keys)}))";
        return $"COALESCE({pick}, {(descending ? "-9223372036854775808" : "@last")})";
    }
}
