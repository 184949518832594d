using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What of a session is written by a rung.</summary>
public static class SessionForm
{
    /// <summary>All of it, its Observations with the report as a document, or the document alone.</summary>
    /// <param name="whole">The whole session.</param>
    /// <param name="rung">The rung.</param>
    /// <param name="documentType">LOINC code of the document's type.</param>
    public static SessionBundle Of(SessionBundle whole, Rung rung, string documentType)
    {
        ArgumentNullException.ThrowIfNull(whole);
        return rung switch
        {
            Rung.ObservationsAndDocument => With(whole, whole.Entries.Where(entry => entry.Type == "Observation"), documentType),
            Rung.DocumentAlone => With(whole, [], documentType),
            _ => whole,
        };
    }

    private static SessionBundle With(SessionBundle whole, IEnumerable<SessionEntry> kept, string documentType)
    {
        var resource = ReportDocument.Of(whole.Report.Resource.ToTree(), whole.Revision, documentType);
        var document = new SessionEntry(0, "DocumentReference", resource.Text("id")!, ResourceIds.Urn(resource.Text("id")!), resource.ToElement());
        var chosen = kept.Append(document).ToList();
        var left = whole.Entries.Except(chosen).ToDictionary(entry => entry.FullUrl, StringComparer.Ordinal);
        return whole with { Entries = [.. chosen.Select((entry, index) => entry with { Index = index, Resource = Detach(entry.Resource, left) })] };
    }

    /// <summary>References to what is not written name it by its identifier instead of its place.</summary>
    private static JsonElement Detach(JsonElement resource, Dictionary<string, SessionEntry> left)
    {
        var copy = resource.ToTree();
        foreach (var element in copy.ObjectsWithin())
        {
            if (element.Text("reference") is { } reference && left.TryGetValue(reference, out var entry) && entry.Identifier is { } identifier)
            {
                element.Remove("reference");
                element["type"] = entry.Type;
                element["identifier"] = new JsonObject { ["system"] = identifier.System, ["value"] = identifier.Value };
            }
        }

        return copy.ToElement();
    }
}
