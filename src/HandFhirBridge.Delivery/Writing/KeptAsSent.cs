using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Whether a target keeps a resource just as it was sent. Nearly every resource is, and this says so without naming places or copying;
/// where it does not, <see cref="ResourceComparison"/> finds what differs, and whether that matters.
/// </summary>
internal static class KeptAsSent
{
    /// <summary>Elements of <c>meta</c> that a server sets (R4 resource.html#Meta).</summary>
    internal static readonly HashSet<string> InMeta = new(StringComparer.Ordinal) { "versionId", "lastUpdated", "source" };

    private enum Level
    {
        Resource,
        Meta,
        Below,
    }

    /// <summary>True if nothing that was sent is kept otherwise; false says nothing.</summary>
    /// <param name="sent">The resource, its references to others of the session as they were sent.</param>
    /// <param name="kept">As it was read back.</param>
    /// <param name="places">Where what a reference names lies at the target.</param>
    public static bool Is(JsonObject sent, JsonObject kept, IReadOnlyDictionary<string, string> places) => Objects(sent, kept, places, Level.Resource);

    private static bool Objects(JsonObject sent, JsonObject kept, IReadOnlyDictionary<string, string> places, Level level)
    {
        foreach (var (name, value) in sent)
        {
            if (value is null || (level == Level.Resource && name == "id") || (level == Level.Meta && InMeta.Contains(name)))
            {
                continue;
            }

            if (!kept.TryGetPropertyValue(name, out var other) || other is null)
            {
                return false;
            }

            // Of a narrative only its presence counts: servers are to clean it.
            if (level == Level.Resource && name == "text")
            {
                continue;
            }

            if (!(name == "reference" && value is JsonValue reference
                ? IsPlace(reference, other, places)
                : Nodes(value, other, places, level == Level.Resource && name == "meta" ? Level.Meta : Level.Below)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Nodes(JsonNode sent, JsonNode kept, IReadOnlyDictionary<string, string> places, Level level) => (sent, kept) switch
    {
        (JsonObject one, JsonObject other) => Objects(one, other, places, level),
        (JsonArray one, JsonArray other) => Lists(one, other, places),
        (JsonValue one, JsonValue other) => Values(one, other),
        _ => false,
    };

    private static bool Lists(JsonArray sent, JsonArray kept, IReadOnlyDictionary<string, string> places)
    {
        if (kept.Count < sent.Count)
        {
            return false;
        }

        for (var index = 0; index < sent.Count; index++)
        {
            if (sent[index] is { } item && (kept[index] is not { } beside || !Nodes(item, beside, places, Level.Below)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsPlace(JsonValue sent, JsonNode kept, IReadOnlyDictionary<string, string> places) =>
        sent.TryGetValue(out string? reference) && kept is JsonValue value && value.TryGetValue(out string? other)
        && other == places.GetValueOrDefault(reference, reference);

    /// <summary>Numbers by their digits (R4 datatypes.html#decimal: the precision is significant), all else by its value.</summary>
    private static bool Values(JsonValue sent, JsonValue kept) =>
        sent.TryGetValue(out JsonElement one) && kept.TryGetValue(out JsonElement other) && one.ValueKind == other.ValueKind
        && (JsonMarshal.GetRawUtf8Value(one).SequenceEqual(JsonMarshal.GetRawUtf8Value(other))
            || (one.ValueKind == JsonValueKind.String && one.ValueEquals(other.GetString())));
}
