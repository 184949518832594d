using System.Collections.Concurrent;
using System.Text.Json;
using HandFhirBridge.Fhir.Profiles;

namespace HandFhirBridge.Fhir.Validation.Terminology;

/// <summary>The value sets in hand that list their codes, by canonical URL. Each is read when first asked for.</summary>
internal sealed class ClosedValueSets(DefinitionSource definitions)
{
    private const string MediaTypes = "http://hl7.org/fhir/ValueSet/mimetypes";

    // R4 binds media types to all of BCP 13, which nobody lists. Those that are written here are listed, so that another is refused.
    private static readonly ClosedValueSet MediaTypesWritten = new([("urn:ietf:bcp:13", "application/pdf", null)]);

    private readonly ConcurrentDictionary<string, ClosedValueSet?> _sets = new(StringComparer.Ordinal);

    /// <summary>A value set by canonical URL, with or without version.</summary>
    /// <returns>Null if it is not in hand, or not listed code by code (a filter, an exclusion, a whole code system).</returns>
    internal ClosedValueSet? Find(string canonical)
    {
        var bar = canonical.IndexOf('|', StringComparison.Ordinal);
        return _sets.GetOrAdd(bar < 0 ? canonical : canonical[..bar], Read);
    }

    private ClosedValueSet? Read(string canonical)
    {
        if (canonical == MediaTypes)
        {
            return MediaTypesWritten;
        }

        if (definitions.Read(canonical) is not { } json)
        {
            return null;
        }

        using var definition = JsonDocument.Parse(json);
        return Concepts(definition.RootElement) is { } concepts ? new ClosedValueSet(concepts) : null;
    }

    private static List<(string System, string Code, string? Display)>? Concepts(JsonElement valueSet)
    {
        if (!valueSet.TryGetProperty("compose", out var compose) || compose.TryGetProperty("exclude", out _))
        {
            return null;
        }

        List<(string, string, string?)> concepts = [];
        foreach (var include in compose.GetProperty("include").EnumerateArray())
        {
            if (!include.TryGetProperty("concept", out var listed) || include.TryGetProperty("valueSet", out _))
            {
                return null;
            }

            var system = include.GetProperty("system").GetString()!;
            concepts.AddRange(listed.EnumerateArray().Select(concept => (system, Text(concept, "code")!, Text(concept, "display"))));
        }

        return concepts;
    }

    private static string? Text(JsonElement concept, string name) =>
        concept.TryGetProperty(name, out var text) ? text.GetString() : null;
}
