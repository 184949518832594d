using System.Text.Json;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Tells our results from others: servers answer with more than was asked for, and an export gives all there is.</summary>
internal static class OwnResources
{
    /// <summary>Code of ICF, fine hand use, by which every result of a session is searched.</summary>
    public const string Category = "d440";

    /// <summary>True if a search would have asked for it: an Observation of the category, a DiagnosticReport of the battery.</summary>
    public static bool AreAskedFor(JsonElement resource) => Text(resource, "resourceType") == "Observation"
        ? resource.TryGetProperty("category", out var categories) && categories.ValueKind == JsonValueKind.Array && categories.EnumerateArray().Any(c => Has(c, CodeSystems.Icf, Category))
        : resource.TryGetProperty("code", out var code) && Has(code, CodeSystems.Measure, MeasureCodes.Report);

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

    private static bool Has(JsonElement concept, string system, string code) =>
        concept.ValueKind == JsonValueKind.Object && concept.TryGetProperty("coding", out var codings) && codings.ValueKind == JsonValueKind.Array
        && codings.EnumerateArray().Any(c => Text(c, "system") == system && Text(c, "code") == code);

    /// <summary>A text of an object; null without.</summary>
    public static string? Text(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
