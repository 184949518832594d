using System.Text.Json;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Search;

/// <summary>How much of each resource a search returns (R4 search.html#summary, #elements).</summary>
/// <param name="Summary">What _summary asks for; False for the whole resource.</param>
/// <param name="Elements">What _elements asks for; empty for all.</param>
internal sealed record Excerpt(SummaryType Summary, IReadOnlyList<string> Elements)
{
    // R4 search.html#summary: "Servers SHOULD mark the resources with the tag SUBSETTED".
    private static readonly Coding Subsetted = new("http://terminology.hl7.org/CodeSystem/v3-ObservationValue", "SUBSETTED");

    /// <summary>Nothing is left out.</summary>
    public static Excerpt Whole { get; } = new(SummaryType.False, []);

    /// <summary>What a query string asks for of a single resource.</summary>
    public static Excerpt OfRead(string type, IEnumerable<KeyValuePair<string, string>> query)
    {
        var excerpt = Whole;
        foreach (var (name, value) in query)
        {
            excerpt = name switch
            {
                "_summary" when value == "count" => throw RecordRefusal.BadRequest("_summary=count is for searches only; a read takes true, text, data or false."),
                "_summary" => excerpt with { Summary = Level(value) },
                "_elements" => excerpt with { Elements = Names(type, value) },
                _ => excerpt,
            };
        }

        return excerpt;
    }

    public static SummaryType Level(string value) => value switch
    {
        "true" => SummaryType.True,
        "text" => SummaryType.Text,
        "data" => SummaryType.Data,
        "count" => SummaryType.Count,
        "false" => SummaryType.False,
        _ => throw RecordRefusal.BadRequest($"_summary is \"{value}\"; it takes true, text, data, count or false."),
    };

    /// <summary>Names of elements of <paramref name="type"/>, without the type of a choice: value, not valueQuantity.</summary>
    public static IReadOnlyList<string> Names(string type, string value)
    {
        var names = value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var known = ModelInfo.ModelInspector.FindClassMapping(type)!.PropertyMappings.Select(p => p.Name).ToHashSet();
        return names.FirstOrDefault(n => !known.Contains(n)) is { } unknown
            ? throw RecordRefusal.BadRequest($"_elements names \"{unknown}\", which is not an element of {type}. A choice is named without its type: value, not valueQuantity.")
            : names;
    }

    /// <summary>The resource as it is returned, in JSON.</summary>
    /// <param name="stored">The resource.</param>
    /// <param name="isMatch">False for what is included: the elements asked for are those of the matches.</param>
    public string Of(StoredResource stored, bool isMatch)
    {
        var elements = isMatch ? Elements : [];
        if (Summary == SummaryType.False && elements.Count == 0)
        {
            return stored.Json!;
        }

        using var whole = JsonDocument.Parse(stored.Json!);
        var resource = stored.Resource();
        resource.Meta ??= new();
        resource.Meta.Tag.Add(Subsetted);
        return WrittenNumbers.Text(resource, whole.RootElement, () => Filter(elements));
    }

    private SerializationFilter Filter(IReadOnlyList<string> elements) => Summary switch
    {
        SummaryType.True => SerializationFilter.ForSummary(),
        SummaryType.Text => SerializationFilter.ForText(),
        SummaryType.Data => SerializationFilter.ForData(),
        _ => SerializationFilter.ForElements(["id", "meta", .. elements], includeMandatory: true),
    };
}
