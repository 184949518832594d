using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>A search parameter of the specification as it applies to one resource type.</summary>
internal sealed class SearchParameter
{
    private readonly Lazy<IReadOnlyList<PathAlternative>> alternatives;

    /// <param name="resourceType">Type that is searched.</param>
    /// <param name="name">Name as used in a query.</param>
    /// <param name="type">Type of the parameter.</param>
    /// <param name="expression">FHIRPath of the specification; a union names other types too.</param>
    /// <param name="targets">Types a reference may have; empty for other parameters.</param>
    /// <param name="components">Parts of a composite; null for other parameters.</param>
    public SearchParameter(
        string resourceType,
        string name,
        SearchParamType type,
        string expression,
        IReadOnlyList<string> targets,
        IReadOnlyList<SearchParameter>? components = null)
    {
        (Name, Type, Expression, Targets, Components) = (name, type, expression, targets, components ?? []);
        Key = $"{resourceType}.{name}";
        alternatives = new(() => PathAlternative.Of(expression, resourceType));
    }

    public string Name { get; }

    public SearchParamType Type { get; }

    public string Expression { get; }

    public IReadOnlyList<string> Targets { get; }

    /// <summary>Parts of a composite, in the order of its values; their paths begin at what the composite's own path finds.</summary>
    public IReadOnlyList<SearchParameter> Components { get; }

    /// <summary>The sides of its path's union that apply to the type.</summary>
    public IReadOnlyList<PathAlternative> Alternatives => alternatives.Value;

    /// <summary>Names the parameter in the index.</summary>
    public string Key { get; }

    /// <summary>The elements the parameter is about, in one resource.</summary>
    /// <param name="element">The resource, or for a part of a composite the element that the composite stands on.</param>
    /// <param name="elements">Names of the elements that it has.</param>
    public IEnumerable<Base> Find(Base element, IReadOnlySet<string> elements) =>
        Alternatives.Where(a => a.Concerns(elements)).SelectMany(a => a.Find(element));
}
