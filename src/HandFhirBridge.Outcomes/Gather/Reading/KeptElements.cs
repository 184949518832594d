using System.Collections.Frozen;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>
/// What of a resource is kept. What no question to outcomes needs is not: names, numbers, addresses, free text, narratives, the report's
/// PDF. A patient keeps what groups are formed by.
/// </summary>
internal static class KeptElements
{
    private static readonly FrozenSet<string> OfPatient =
        new[] { "resourceType", "id", "meta", "active", "gender", "birthDate", "deceasedBoolean", "deceasedDateTime", "link" }.ToFrozenSet();

    private static readonly FrozenSet<string> NeverOfOthers =
        new[] { "text", "contained", "note", "conclusion", "presentedForm" }.ToFrozenSet();

    /// <summary>Writes a resource on one line, numbers with the digits they came with.</summary>
    public static void Write(JsonElement resource, Utf8JsonWriter json)
    {
        var isPatient = OwnResources.Text(resource, "resourceType") == "Patient";
        json.WriteStartObject();
        foreach (var element in resource.EnumerateObject().Where(e => isPatient ? OfPatient.Contains(e.Name) : !NeverOfOthers.Contains(e.Name.TrimStart('_'))))
        {
            element.WriteTo(json);
        }

        json.WriteEndObject();
    }
}
