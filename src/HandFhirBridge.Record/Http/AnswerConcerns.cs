using System.Text.Json;

namespace HandFhirBridge.Record.Http;

/// <summary>Whom an answer is about.</summary>
internal static class AnswerConcerns
{
    // Elements by which resources name the patient they are about.
    private static readonly string[] Subjects = ["subject", "patient", "beneficiary", "individual"];

    /// <param name="json">Body; null for none.</param>
    /// <param name="location">Location header: where something was written; null for none.</param>
    public static IEnumerable<string> Of(string? json, string? location)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        Add(found, Unversioned(location));
        if (json is not null)
        {
            using var document = JsonDocument.Parse(json);
            AddResource(found, document.RootElement);
        }

        return found;
    }

    private static void AddResource(HashSet<string> found, JsonElement resource)
    {
        switch (Text(resource, "resourceType"))
        {
            case "Patient":
                Add(found, $"Patient/{Text(resource, "id")}");
                break;
            case "Bundle" when resource.TryGetProperty("entry", out var entries):
                foreach (var entry in entries.EnumerateArray())
                {
                    Add(found, entry.TryGetProperty("response", out var response) ? Unversioned(Text(response, "location")) : null);
                    if (entry.TryGetProperty("resource", out var inner))
                    {
                        AddResource(found, inner);
                    }
                }

                break;
            default:
                foreach (var name in Subjects)
                {
                    Add(found, resource.TryGetProperty(name, out var subject) ? PatientOf(Text(subject, "reference")) : null);
                }

                break;
        }
    }

    private static string? PatientOf(string? reference) => reference?.Split("/_history/")[0].Split('/') is [.., "Patient", var id] ? $"Patient/{id}" : null;

    private static string? Unversioned(string? location) => location?.Split("/_history/")[0].Split('/') is [.., var type, var id] ? $"{type}/{id}" : null;

    private static string? Text(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static void Add(HashSet<string> found, string? reference)
    {
        if (reference is not null)
        {
            found.Add(reference);
        }
    }
}
