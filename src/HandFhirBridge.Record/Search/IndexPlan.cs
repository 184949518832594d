using System.Collections.Concurrent;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>What is kept for search of resources of one type, every path once.</summary>
/// <param name="Paths">Paths from the resource.</param>
/// <param name="Elements">The elements that composites stand on.</param>
internal sealed record IndexPlan(IReadOnlyList<IndexPath> Paths, IReadOnlyList<IndexPlan.Element> Elements)
{
    private static readonly ConcurrentDictionary<string, IndexPlan> ByType = new();

    public static IndexPlan Of(string resourceType) => ByType.GetOrAdd(resourceType, static type =>
    {
        var parameters = SearchParameters.Of(type).Values;
        return new(
            [.. parameters.Where(p => p.Type != SearchParamType.Composite).SelectMany(p => p.Paths).DistinctBy(p => p.Key)],
            [
                .. parameters.Where(p => p.Type == SearchParamType.Composite).SelectMany(c => c.Alternatives.Select(element => (Element: element, Composite: c)))
                    .GroupBy(c => c.Element.Expression)
                    .Select(g => new Element(g.First().Element, [.. g.Select(c => c.Composite.Components.Select(part => part.PathsOn(c.Element)).Reverse().ToList())])),
            ]);
    });

    /// <summary>An element that composites stand on.</summary>
    /// <param name="Path">Where it is.</param>
    /// <param name="Composites">
    /// The paths of each part of each composite. The last part leads: most elements have a code, fewer a value of the type that is asked for.
    /// </param>
    internal sealed record Element(PathAlternative Path, IReadOnlyList<IReadOnlyList<IReadOnlyList<IndexPath>>> Composites);
}
