using System.Text.Json;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Outcomes.Gather.Reading;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>What tells two copies of a resource apart, read from its JSON without building the resource.</summary>
/// <param name="Key">Our own identifier (<c>system|value</c>), else source, type and id.</param>
/// <param name="LastUpdated">When the server last changed it; the earliest moment where it does not say.</param>
internal readonly record struct ResourceHead(string Key, DateTimeOffset LastUpdated)
{
    /// <summary>Reads a line of NDJSON.</summary>
    /// <param name="line">One resource.</param>
    /// <param name="source">Where it was gathered.</param>
    /// <exception cref="JsonException">It is not JSON.</exception>
    public static ResourceHead Read(ReadOnlyMemory<byte> line, string source)
    {
        using var document = JsonDocument.Parse(line);
        var resource = document.RootElement;
        return new(
            Own(resource) ?? $"{source}/{OwnResources.Text(resource, "resourceType")}/{OwnResources.Text(resource, "id")}",
            MergedFile.Updated(resource) ?? DateTimeOffset.MinValue);
    }

    private static string? Own(JsonElement resource)
    {
        if (resource.TryGetProperty("identifier", out var identifiers) && identifiers.ValueKind == JsonValueKind.Array)
        {
            foreach (var identifier in identifiers.EnumerateArray())
            {
                if (OwnResources.Text(identifier, "system") is { } system && system.StartsWith(IdentifierSystems.Base, StringComparison.Ordinal)
                    && OwnResources.Text(identifier, "value") is { } value)
                {
                    return $"{system}|{value}";
                }
            }
        }

        return null;
    }
}
