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
        SearchParamType.Quantity, SearchParamType.Uri,
    ];

    /// <summary>The parameters of a type by name.</summary>
    public static FrozenDictionary<string, SearchParameter> Of(string type) => ByType.GetOrAdd(type, static type =>
        Definitions[type]
            .Where(p => p.Code is not null && !string.IsNullOrEmpty(p.Expression) && Supported.Contains(p.Type) && !p.Code.StartsWith('_'))
            .Select(p => new SearchParameter(type, p.Code!, p.Type, p.Expression!, [.. (p.Target ?? []).Select(t => t.ToString()!)]))
            .Concat(Common.Select(p => new SearchParameter(type, p.Name, p.Type, p.Expression, [])))
            .DistinctBy(p => p.Name)
            .ToFrozenDictionary(p => p.Name, StringComparer.Ordinal));
}
