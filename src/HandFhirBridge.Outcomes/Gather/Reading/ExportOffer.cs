using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Whether a server offers the bulk export (FHIR Bulk Data Access), as its CapabilityStatement says.</summary>
internal static class ExportOffer
{
    /// <summary>Address of the export relative to the base: of the system, else of all patients; null if none is offered.</summary>
    public static async Task<string?> FindAsync(FhirRequests requests, CancellationToken cancellation)
    {
        var (json, _) = await requests.GetJsonAsync(new Uri(requests.Source.BaseUrl, "metadata"), cancellation);
        using (json)
        {
            if (OwnResources.Text(json.RootElement, "resourceType") != "CapabilityStatement")
            {
                throw requests.NotUnderstood("something else than a CapabilityStatement at /metadata");
            }

            foreach (var rest in Items(json.RootElement, "rest"))
            {
                if (Items(rest, "operation").Any(IsExport))
                {
                    return "$export";
                }

                if (Items(rest, "resource").Any(r => OwnResources.Text(r, "type") == "Patient" && Items(r, "operation").Any(IsExport)))
                {
                    return "Patient/$export";
                }
            }

            return null;
        }
    }

    // The name is "export"; group-export and others are named otherwise or stand with the type they are of.
    private static bool IsExport(JsonElement operation) => OwnResources.Text(operation, "name") is "export" or "$export" or "system-export" or "patient-export";

    private static JsonElement.ArrayEnumerator Items(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array ? list.EnumerateArray() : default;
}
