using System.Text.Json;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Tells our results from others: servers answer with more than was asked for, and an export gives all there is.</summary>
internal static class OwnResources
{
    /// <summary>True if the resource is an Observation or DiagnosticReport with an identifier of ours.</summary>
    public static bool Are(JsonElement resource) =>
        resource.TryGetProperty("identifier", out var identifiers) && identifiers.ValueKind == JsonValueKind.Array
        && identifiers.EnumerateArray().Any(i => Text(i, "system")?.StartsWith(IdentifierSystems.Base, StringComparison.Ordinal) == true);

    /// <summary>Id of the patient a resource is about, by a literal reference; null without one.</summary>
    public static string? PatientOf(JsonElement resource)
    {
        if (!resource.TryGetProperty("subject", out var subject) || Text(subject, "reference") is not { } reference)
        {
            return null;
        }

        var parts = reference.Split("/_history/")[0].Split('/');
        return parts.Length >= 2 && parts[^2] == "Patient" && parts[^1].Length > 0 ? parts[^1] : null;
    }

    /// <summary>A text of an object; null without.</summary>
    public static string? Text(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
