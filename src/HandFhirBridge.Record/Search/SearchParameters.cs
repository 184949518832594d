using System.Collections.Concurrent;
using System.Collections.Frozen;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>The specification's own search parameters, as they come with the FHIR SDK.</summary>
internal static class SearchParameters
{
    private static readonly ConcurrentDictionary<string, FrozenDictionary<string, SearchParameter>> ByType = new();

    private static readonly ILookup<string, SearchParamDefinition> Definitions =
        ModelInfo.SearchParameters.ToLookup(p => p.Resource ?? "");

    // The specification gives these to every resource; the SDK's list leaves their expressions out.
    private static readonly SearchParameter[] Common =
    [
        new("_id", SearchParamType.Token, "Resource.id", []),
        new("_lastUpdated", SearchParamType.Date, "Resource.meta.lastUpdated", []),
        new("_tag", SearchParamType.Token, "Resource.meta.tag", []),
        new("_security", SearchParamType.Token, "Resource.meta.security", []),
        new("_profile", SearchParamType.Uri, "Resource.meta.profile", []),
    ];

    /// <summary>Types of parameter that can be searched here.</summary>
    public static IReadOnlyCollection<SearchParamType> Supported { get; } =
    [
        SearchParamType.Token, SearchParamType.Reference, SearchParamType.Date, SearchParamType.String, SearchParamType.Number,
        SearchParamType.Quantity, SearchParamType.Uri,
    ];

    /// <summary>The parameters of a type by name.</summary>
    public static FrozenDictionary<string, SearchParameter> Of(string type) => ByType.GetOrAdd(type, static type =>
        Definitions[type]
            .Where(p => p.Code is not null && !string.IsNullOrEmpty(p.Expression) && Supported.Contains(p.Type) && !p.Code.StartsWith('_'))
            .Select(p => new SearchParameter(p.Code!, p.Type, Own(p.Expression!, type), [.. (p.Target ?? []).Select(t => t.ToString()!)]))
            .Concat(Common)
            .DistinctBy(p => p.Name)
            .ToFrozenDictionary(p => p.Name, StringComparer.Ordinal));

    // A parameter shared by many types has one alternative a type; the others give nothing and cost time.
    private static string Own(string expression, string type)
    {
        var own = expression.Split(" | ").Where(e => e.TrimStart('(', ' ').StartsWith(type + ".", StringComparison.Ordinal)).ToList();
        return own.Count > 0 ? string.Join(" | ", own) : expression;
    }
}
