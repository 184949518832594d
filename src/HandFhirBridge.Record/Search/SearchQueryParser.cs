using System.Globalization;
using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Understands a query string, or refuses it by name (R4 search.html).</summary>
/// <param name="type">Resource type searched.</param>
/// <param name="lenient">True leaves out what is not known (<c>Prefer: handling=lenient</c>), and the self link shows it.</param>
internal sealed class SearchQueryParser(string type, bool lenient)
{
    private const int DefaultCount = 50;
    private const int MaxCount = 1000;
    private readonly List<Criterion> criteria = [];
    private readonly List<(SearchParameter, bool)> sort = [];
    private readonly List<Inclusion> includes = [];
    private readonly List<KeyValuePair<string, string>> used = [];
    private int count = DefaultCount;
    private int offset;

    public SearchQuery Parse(IEnumerable<KeyValuePair<string, string>> query)
    {
        foreach (var (name, value) in query)
        {
            if (!Take(name, value) && !lenient)
            {
                throw RecordRefusal.BadRequest($"The search parameter \"{name}\" is not known for {type}. The CapabilityStatement at /metadata lists what is.");
            }
        }

        return new(type, criteria, sort, includes, count, offset, used);
    }

    private bool Take(string name, string value)
    {
        var bare = name.Split(':')[0];
        switch (bare)
        {
            case "_format" or "_pretty":
                return true;
            case "_count":
                count = Math.Min(Number(name, value), MaxCount);
                return true;
            case "_offset":
                offset = Number(name, value);
                return true;
            case "_sort":
                sort.AddRange(value.Split(',').Select(SortKey));
                break;
            case "_include" or "_revinclude":
                includes.Add(Inclusion(name, value, bare == "_revinclude"));
                break;
            case "_total" when value is "accurate" or "none" or "estimate":
                break;
            default:
                if (Criterion(type, name, value) is not { } criterion)
                {
                    return false;
                }

                criteria.Add(criterion);
                break;
        }

        used.Add(new(name, value));
        return true;
    }

    private static int Number(string name, string value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw RecordRefusal.BadRequest($"{name} is \"{value}\", which is not a whole number.");

    private (SearchParameter, bool) SortKey(string key)
    {
        var name = key.TrimStart('-');
        return SearchParameters.Of(type).TryGetValue(name, out var parameter)
            ? (parameter, key.StartsWith('-'))
            : throw RecordRefusal.BadRequest($"_sort names \"{name}\", which is not a search parameter of {type}.");
    }

    private static Inclusion Inclusion(string name, string value, bool reverse)
    {
        var parts = value.Split(':');
        return parts.Length is 2 or 3 && ModelInfo.IsKnownResource(parts[0])
            && SearchParameters.Of(parts[0]).TryGetValue(parts[1], out var parameter) && parameter.Type == SearchParamType.Reference
            ? new(parts[0], parameter, parts.Length == 3 ? parts[2] : null, reverse, name.EndsWith(":iterate", StringComparison.Ordinal))
            : throw RecordRefusal.BadRequest($"{name} is \"{value}\". Write Type:parameter, where the parameter is a reference of that type.");
    }

    private static Criterion? Criterion(string type, string name, string value)
    {
        var (head, chained) = name.Split('.', 2) is [var h, var c] ? (h, c) : (name, null);
        var (bare, modifier) = head.Split(':', 2) is [var b, var m] ? (b, m) : (head, null);
        if (!SearchParameters.Of(type).TryGetValue(bare, out var parameter))
        {
            return null;
        }

        if (chained is null)
        {
            Modifiers.Demand(parameter, modifier, name);
            return new(parameter, modifier, null, null, Escaping.Split(value, ','));
        }

        var target = modifier ?? (parameter.Targets.Count == 1 || parameter.Targets.Contains("Patient") ? Target(parameter) : null);
        return parameter.Type == SearchParamType.Reference && target is not null && Criterion(target, chained, value) is { } chain
            ? new(parameter, null, chain, target, [])
            : throw RecordRefusal.BadRequest($"\"{name}\" cannot be followed. Name the type of the target, for example subject:Patient.identifier.");
    }

    private static string Target(SearchParameter parameter) => parameter.Targets.Contains("Patient") ? "Patient" : parameter.Targets[0];
}
