using System.Runtime.InteropServices;
using System.Text.Json;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Whether a target keeps a resource just as it was sent. Nearly every resource is, and this says so from the bytes of both, without
/// naming places or copying; where it does not, <see cref="ResourceComparison"/> finds what differs, and whether that matters.
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
    public static bool Is(JsonElement sent, JsonElement kept, IReadOnlyDictionary<string, string> places) => Objects(sent, kept, places, Level.Resource);

    private static bool Objects(JsonElement sent, JsonElement kept, IReadOnlyDictionary<string, string> places, Level level)
    {
        foreach (var member in sent.EnumerateObject())
        {
            var value = member.Value;
            if (value.ValueKind == JsonValueKind.Null || (level == Level.Resource && member.NameEquals("id"u8)) || (level == Level.Meta && InMeta.Contains(member.Name)))
            {
                continue;
            }

            // A name that was sent with escapes is not found, which says nothing.
            if (!kept.TryGetProperty(JsonMarshal.GetRawUtf8PropertyName(member), out var other) || other.ValueKind == JsonValueKind.Null)
            {
                return false;
            }

            // Of a narrative only its presence counts: servers are to clean it.
            if (level == Level.Resource && member.NameEquals("text"u8))
            {
                continue;
            }

            if (!(member.NameEquals("reference"u8) && value.ValueKind == JsonValueKind.String
                ? IsPlace(value, other, places)
                : Elements(value, other, places, level == Level.Resource && member.NameEquals("meta"u8) ? Level.Meta : Level.Below)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Elements(JsonElement sent, JsonElement kept, IReadOnlyDictionary<string, string> places, Level level) =>
        sent.ValueKind == kept.ValueKind && sent.ValueKind switch
        {
            JsonValueKind.Object => Objects(sent, kept, places, level),
            JsonValueKind.Array => Lists(sent, kept, places),
            _ => Values(sent, kept),
        };

    private static bool Lists(JsonElement sent, JsonElement kept, IReadOnlyDictionary<string, string> places)
    {
        using var beside = kept.EnumerateArray();
        foreach (var item in sent.EnumerateArray())
        {
            if (!beside.MoveNext() || (item.ValueKind != JsonValueKind.Null && !Elements(item, beside.Current, places, Level.Below)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsPlace(JsonElement sent, JsonElement kept, IReadOnlyDictionary<string, string> places) =>
        kept.ValueKind == JsonValueKind.String && sent.GetString()! is var reference && kept.ValueEquals(places.GetValueOrDefault(reference, reference));

    /// <summary>Numbers by their digits (R4 datatypes.html#decimal: the precision is significant), all else by its value.</summary>
    private static bool Values(JsonElement sent, JsonElement kept) =>
        JsonMarshal.GetRawUtf8Value(sent).SequenceEqual(JsonMarshal.GetRawUtf8Value(kept))
        || (sent.ValueKind == JsonValueKind.String && sent.ValueEquals(kept.GetString()));
}
