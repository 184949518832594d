using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Compares what was sent with what a target gives back. What a target adds is its own matter; what it leaves out or alters is
/// a difference. Of a narrative only its presence is compared, as servers are to clean it (R4 narrative, security notes).
/// </summary>
public static class ResourceComparison
{
    /// <summary>The differences, none if all that was sent is kept as it was.</summary>
    /// <param name="label">Names the resource to people.</param>
    /// <param name="sent">The resource with its references rewritten to ids at the target.</param>
    /// <param name="kept">As it was read back.</param>
    public static IReadOnlyList<Difference> Find(string label, JsonElement sent, JsonElement kept) =>
        [.. Objects(sent, kept, sent.Text("resourceType") ?? "").Select(d => d with { Label = label })];

    private static IEnumerable<Difference> Objects(JsonElement sent, JsonElement kept, string path)
    {
        foreach (var member in sent.EnumerateObject())
        {
            var (name, value) = (member.Name, member.Value);
            if (value.ValueKind == JsonValueKind.Null || IsByTheServer(name, path))
            {
                continue;
            }

            var below = $"{path}.{name}";
            if (!kept.TryGetProperty(name, out var other) || other.ValueKind == JsonValueKind.Null)
            {
                if (!IsHeldElsewhere(name, sent, kept))
                {
                    yield return new("", below, DifferenceKind.Dropped, null, null);
                }
            }
            else if (name != "text" || path.Contains('.', StringComparison.Ordinal))
            {
                foreach (var difference in Elements(value, other, below))
                {
                    yield return difference;
                }
            }
        }
    }

    /// <summary>R4 resource.html: the server gives a resource its id, and <c>meta</c> its version, instant and source.</summary>
    private static bool IsByTheServer(string name, string path) => name == "id"
        ? !path.Contains('.', StringComparison.Ordinal)
        : KeptAsSent.InMeta.Contains(name) && path.EndsWith(".meta", StringComparison.Ordinal);

    private static IEnumerable<Difference> Elements(JsonElement sent, JsonElement kept, string path) => (sent.ValueKind, kept.ValueKind) switch
    {
        (JsonValueKind.Object, JsonValueKind.Object) => Objects(sent, kept, path),
        (JsonValueKind.Array, JsonValueKind.Array) => Lists(sent, kept, path),
        (JsonValueKind.Object or JsonValueKind.Array, _) or (_, JsonValueKind.Object or JsonValueKind.Array) => [new("", path, DifferenceKind.Changed, null, null)],
        _ => Values(sent, kept, path) is { } kind ? [new("", path, kind, sent.GetRawText(), kept.GetRawText())] : [],
    };

    /// <summary>Each item must be among those kept; the server may add others, and order them in its way.</summary>
    private static IEnumerable<Difference> Lists(JsonElement sent, JsonElement kept, string path)
    {
        foreach (var (index, item) in sent.EnumerateArray().Index())
        {
            var below = string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
            if (item.ValueKind == JsonValueKind.Null || kept.EnumerateArray().Any(other => other.ValueKind != JsonValueKind.Null && !Elements(item, other, below).Any()))
            {
                continue;
            }

            var differences = index < kept.GetArrayLength() && kept[index] is { ValueKind: not JsonValueKind.Null } beside
                ? Elements(item, beside, below)
                : [new("", below, DifferenceKind.Dropped, null, null)];
            foreach (var difference in differences)
            {
                yield return difference;
            }
        }
    }

    private static DifferenceKind? Values(JsonElement sent, JsonElement kept, string path) => (sent.ValueKind, kept.ValueKind) switch
    {
        (JsonValueKind.Number, JsonValueKind.Number) => Numbers(sent.GetRawText(), kept.GetRawText()),
        (JsonValueKind.String, JsonValueKind.String) => Agree(sent.GetString()!, kept.GetString()!, path) ? null : DifferenceKind.Changed,
        var (one, other) => one == other ? null : DifferenceKind.Changed,
    };

    private static DifferenceKind? Numbers(string sent, string kept) =>
        sent == kept ? null : Number(sent) == Number(kept) ? DifferenceKind.Rounded : DifferenceKind.Changed;

    private static bool Agree(string sent, string kept, string path) => sent == kept
        || (path.EndsWith(".reference", StringComparison.Ordinal)
            ? ResourcePlaces.IsSame(sent, kept)
            : sent.Contains('T', StringComparison.Ordinal)
                && DateTimeOffset.TryParse(sent, CultureInfo.InvariantCulture, DateTimeStyles.None, out var one)
                && DateTimeOffset.TryParse(kept, CultureInfo.InvariantCulture, DateTimeStyles.None, out var other)
                && one.EqualsExact(other));

    /// <summary>A server may move an attachment's bytes to an address of its own, if it still says whose they are.</summary>
    private static bool IsHeldElsewhere(string name, JsonElement sent, JsonElement kept) =>
        name == "data" && kept.Text("url") is not null && sent.Text("hash") is { } hash && kept.Text("hash") == hash;

    private static decimal? Number(string text) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;
}
