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

    private static readonly ILookup<string, SearchParamDefinition> ByUrl = ModelInfo.SearchParameters.ToLookup(p => p.Url ?? "");

    // The specification gives these to every resource (R4 search.html#all); the SDK's list is of those of single types.
    private static readonly (string Name, SearchParamType Type, string Expression)[] Common =
    [
        ("_id", SearchParamType.Token, "Resource.id"),
        ("_lastUpdated", SearchParamType.Date, "Resource.meta.lastUpdated"),
        ("_tag", SearchParamType.Token, "Resource.meta.tag"),
        ("_security", SearchParamType.Token, "Resource.meta.security"),
        ("_profile", SearchParamType.Uri, "Resource.meta.profile"),
        ("_source", SearchParamType.Uri, "Resource.meta.source"),
    ];

    /// <summary>Types of parameter that can be searched here.</summary>
    public static IReadOnlyCollection<SearchParamType> Supported { get; } =
    [
        SearchParamType.Token, SearchParamType.Reference, SearchParamType.Date, SearchParamType.String, SearchParamType.Number,
        SearchParamType.Quantity, SearchParamType.Uri, SearchParamType.Composite,
    ];

    /// <summary>The parameters of a type by name.</summary>
    public static FrozenDictionary<string, SearchParameter> Of(string type) => ByType.GetOrAdd(type, static type =>
        Definitions[type]
            .Where(p => p.Code is not null && !string.IsNullOrEmpty(p.Expression) && Supported.Contains(p.Type) && !p.Code.StartsWith('_'))
            .Select(p => new SearchParameter(type, p.Code!, p.Type, p.Expression!, Targets(p), Components(type, p)))
            .Where(p => p.Type != SearchParamType.Composite || p.Components.Count > 1)
            .Concat(Common.Select(p => new SearchParameter(type, p.Name, p.Type, p.Expression, [])))
            .DistinctBy(p => p.Name)
            .ToFrozenDictionary(p => p.Name, StringComparer.Ordinal));

    private static IReadOnlyList<string> Targets(SearchParamDefinition definition) => [.. (definition.Target ?? []).Select(t => t.ToString()!)];

    // A part names the parameter whose type it has, and gives its path from the element that the composite stands on.
    private static IReadOnlyList<SearchParameter> Components(string type, SearchParamDefinition composite)
    {
        var parts = (composite.Component ?? []).Select(c => (c.Expression, Definition: ByUrl[c.Definition ?? ""].FirstOrDefault())).ToList();
        // What a part finds elsewhere in the resource, not under the element, cannot be told from here.
        return parts.TrueForAll(p => p.Definition is not null && p.Expression?.StartsWith('%') == false && Supported.Contains(p.Definition.Type))
            ? [.. parts.Select((p, i) => new SearchParameter(type, $"{composite.Code}${i + 1}", p.Definition!.Type, p.Expression!, Targets(p.Definition), element: composite.Expression))]
            : [];
    }
}
