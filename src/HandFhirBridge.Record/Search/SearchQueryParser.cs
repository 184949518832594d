using System.Globalization;
using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;

namespace HandFhirBridge.Record.Search;

/// <summary>Understands a query string, or refuses it by name (R4 search.html).</summary>
/// <param name="type">Resource type searched.</param>
/// <param name="lenient">True leaves out parameters that are not known (<c>Prefer: handling=lenient</c>); the self link shows it.</param>
/// <param name="options">Page sizes.</param>
internal sealed class SearchQueryParser(string type, bool lenient, RecordOptions options)
{
    private readonly List<Criterion> criteria = [];
    private readonly List<(SearchParameter, bool)> sort = [];
    private readonly List<Inclusion> includes = [];
    private readonly List<KeyValuePair<string, string>> used = [];
    private int count = options.DefaultPageSize;
    private string? after;
    private bool withTotal = true;
    private Excerpt excerpt = Excerpt.Whole;

    public SearchQuery Parse(IEnumerable<KeyValuePair<string, string>> query)
    {
        foreach (var (name, value) in query)
        {
            if (!Take(name, value) && !lenient)
            {
                throw RecordRefusal.BadRequest(
                    $"The search parameter \"{name}\" is not known for {type}. The CapabilityStatement at /metadata lists what is; Prefer: handling=lenient leaves it out.");
            }
        }

        // R4 search.html#summary: includes cannot be mixed with _summary=text.
        if (excerpt.Summary == SummaryType.Text && includes.Count > 0)
        {
            throw RecordRefusal.BadRequest("_summary=text cannot be asked for together with _include or _revinclude. Leave one of them out.");
        }

        // R4 search.html#summary: count returns "just a count of the matching resources, without returning the actual matches".
        var countOnly = excerpt.Summary == SummaryType.Count;
        return new(
            type, criteria, sort, includes, countOnly ? 0 : count, after is null ? null : PageMark.Parse(after, sort.Count), withTotal || countOnly, excerpt, used);
    }

    private bool Take(string name, string value)
    {
        switch (name.Split(':')[0])
        {
            case "_format" or "_pretty":
                return true;
            case "_count":
                count = Math.Min(Number(name, value), options.MaxPageSize);
                break;
            case "_after":
                after = value;
                return true;
            case "_sort":
                sort.AddRange(value.Split(',').Select(SortKey));
                break;
            case "_include" or "_revinclude":
                includes.AddRange(Inclusions(name, value));
                break;
            case "_summary" or "_elements":
                excerpt = name == "_summary" ? excerpt with { Summary = Excerpt.Level(value) } : excerpt with { Elements = Excerpt.Names(type, value) };
                break;
            case "_total":
                withTotal = value switch
                {
                    "none" => false,
                    "accurate" or "estimate" => true,
                    _ => throw RecordRefusal.BadRequest($"_total is \"{value}\"; it takes none, estimate or accurate."),
                };
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
        var name = key.StartsWith('-') ? key[1..] : key;
        return SearchParameters.Of(type).TryGetValue(name, out var parameter) && parameter.Type != SearchParamType.Composite
            ? (parameter, key.StartsWith('-'))
            : throw RecordRefusal.BadRequest($"_sort names \"{name}\", which is not a search parameter of {type} that sorts.");
    }

    private static List<Inclusion> Inclusions(string name, string value)
    {
        var (reverse, modifier) = (name.StartsWith("_revinclude", StringComparison.Ordinal), name.Split(':') is [_, var m] ? m : null);
        var parts = value.Split(':');
        if (modifier is not (null or "iterate") || parts.Length is not (2 or 3) || !ModelInfo.IsKnownResource(parts[0]))
        {
            throw Unusable();
        }

        var target = parts.Length == 3 ? parts[2] : null;
        var parameters = SearchParameters.Of(parts[0]).Values.Where(p => p.Type == SearchParamType.Reference && (parts[1] == "*" || parts[1] == p.Name));
        var inclusions = parameters.Select(p => new Inclusion(parts[0], p, target, reverse, modifier is not null)).ToList();
        return inclusions.Count > 0 && (target is null || ModelInfo.IsKnownResource(target)) ? inclusions : throw Unusable();

        RecordRefusal Unusable() => RecordRefusal.BadRequest(
            $"{name} is \"{value}\". Write Type:parameter or Type:parameter:TargetType, where the parameter is a reference of that type.");
    }

    // R4 search.html#has: _has:Type:reference:parameter, where the parameter may be another _has.
    private static Criterion Has(string type, string name, string value)
    {
        var parts = name.Split(':', 4);
        if (parts is not [_, var from, var reference, var parameter]
            || !ModelInfo.IsKnownResource(from)
            || !SearchParameters.Of(from).TryGetValue(reference, out var link)
            || !link.Targets.Contains(type)
            || Criterion(from, parameter, value) is not { } criterion)
        {
            throw RecordRefusal.BadRequest(
                $"\"{name}\" cannot be followed. Write _has:Type:reference:parameter, where the reference is a parameter of Type that points at {type}, and the parameter is one of Type.");
        }

        return new(link, null, [], []) { Has = new(from, type, criterion) };
    }

    private static Criterion? Criterion(string type, string name, string value)
    {
        if (name.StartsWith("_has:", StringComparison.Ordinal))
        {
            return Has(type, name, value);
        }

        var (head, chained) = name.Split('.', 2) is [var h, var c] ? (h, c) : (name, null);
        var (bare, modifier) = head.Split(':', 2) is [var b, var m] ? (b, m) : (head, null);
        if (!SearchParameters.Of(type).TryGetValue(bare, out var parameter))
        {
            return null;
        }

        // An empty value would match all or nothing; neither is what anyone meant.
        if (string.IsNullOrWhiteSpace(value))
        {
            throw RecordRefusal.BadRequest($"The search parameter \"{name}\" has no value. Leave it out or give it one.");
        }

        if (chained is null)
        {
            Modifiers.Demand(parameter, modifier, name);
            return new(parameter, modifier, [], Escaping.Split(value, ','));
        }

        IEnumerable<string> targets = modifier is null ? parameter.Targets : parameter.Targets.Where(t => t == modifier);
        var chains = targets.Select(t => (Type: t, Criterion: Criterion(t, chained, value))).Where(t => t.Criterion is not null)
            .Select(t => (t.Type, t.Criterion!)).ToList();
        return chains.Count > 0
            ? new(parameter, null, chains, [])
            : throw RecordRefusal.BadRequest($"\"{name}\" cannot be followed: no resource that {type}.{bare} points at has the parameter \"{chained}\".");
    }
}
