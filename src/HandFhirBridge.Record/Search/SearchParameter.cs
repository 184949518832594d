using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>A search parameter of the specification as it applies to one resource type.</summary>
internal sealed class SearchParameter
{
    private readonly Lazy<IReadOnlyList<PathAlternative>> alternatives;
    private readonly Lazy<IReadOnlyList<IndexPath>> paths;

    /// <param name="resourceType">Type that is searched.</param>
    /// <param name="name">Name as used in a query.</param>
    /// <param name="type">Type of the parameter.</param>
    /// <param name="expression">FHIRPath of the specification; a union names other types too.</param>
    /// <param name="targets">Types a reference may have; empty for other parameters.</param>
    /// <param name="components">Parts of a composite; null for other parameters.</param>
    /// <param name="element">For a part: FHIRPath of what its composite stands on.</param>
    public SearchParameter(
        string resourceType,
        string name,
        SearchParamType type,
        string expression,
        IReadOnlyList<string> targets,
        IReadOnlyList<SearchParameter>? components = null,
        string? element = null)
    {
        (ResourceType, Name, Type, Expression, Targets, Components) = (resourceType, name, type, expression, targets, components ?? []);
        alternatives = new(() => PathAlternative.Of(expression, resourceType));
        paths = new(() => element is null
            ? [.. Alternatives.Select(a => IndexPath.Of(resourceType, type, a))]
            : [.. PathAlternative.Of(element, resourceType).SelectMany(PathsOn)]);
    }

    /// <summary>Type that is searched.</summary>
    public string ResourceType { get; }

    public string Name { get; }

    public SearchParamType Type { get; }

    public string Expression { get; }

    public IReadOnlyList<string> Targets { get; }

    /// <summary>Parts of a composite, in the order of its values; their paths begin at what the composite's own path finds.</summary>
    public IReadOnlyList<SearchParameter> Components { get; }

    /// <summary>The sides of its path's union that apply to the type.</summary>
    public IReadOnlyList<PathAlternative> Alternatives => alternatives.Value;

    /// <summary>What is kept for it; nothing for a composite, whose parts have their own.</summary>
    public IReadOnlyList<IndexPath> Paths => paths.Value;

    /// <summary>Names them in the index.</summary>
    public IEnumerable<long> Keys => Paths.Select(p => p.Key);

    /// <summary>The paths of a part of a composite, from the element the composite stands on.</summary>
    public IReadOnlyList<IndexPath> PathsOn(PathAlternative element) => [.. Alternatives.Select(a => IndexPath.Of(ResourceType, Type, a, element))];
}
