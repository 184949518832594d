using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
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
    public static IReadOnlyList<Difference> Find(string label, JsonObject sent, JsonObject kept)
    {
        ArgumentNullException.ThrowIfNull(sent);
        ArgumentNullException.ThrowIfNull(kept);
        return [.. Objects(sent, kept, sent.Text("resourceType") ?? "").Select(d => d with { Label = label })];
    }

    private static IEnumerable<Difference> Objects(JsonObject sent, JsonObject kept, string path)
    {
        foreach (var (name, value) in sent)
        {
            if (value is null || IsByTheServer(name, path))
            {
                continue;
            }

            var below = $"{path}.{name}";
            kept.TryGetPropertyValue(name, out var other);
            if (other is null)
            {
                if (!IsHeldElsewhere(name, sent, kept))
                {
                    yield return new("", below, DifferenceKind.Dropped, null, null);
                }
            }
            else if (name != "text" || path.Contains('.', StringComparison.Ordinal))
            {
                foreach (var difference in Nodes(value, other, below))
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

    private static IEnumerable<Difference> Nodes(JsonNode sent, JsonNode kept, string path) => (sent, kept) switch
    {
        (JsonObject one, JsonObject other) => Objects(one, other, path),
        (JsonArray one, JsonArray other) => Lists(one, other, path),
        (JsonValue one, JsonValue other) => Values(one, other, path) is { } kind ? [new("", path, kind, Raw(one), Raw(other))] : [],
        _ => [new("", path, DifferenceKind.Changed, null, null)],
    };

    /// <summary>Each item must be among those kept; the server may add others, and order them in its way.</summary>
    private static IEnumerable<Difference> Lists(JsonArray sent, JsonArray kept, string path)
    {
        for (var index = 0; index < sent.Count; index++)
        {
            var below = string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]");
            if (sent[index] is not { } item || kept.Any(other => other is not null && !Nodes(item, other, below).Any()))
            {
                continue;
            }

            var differences = index < kept.Count && kept[index] is { } beside
                ? Nodes(item, beside, below)
                : [new("", below, DifferenceKind.Dropped, null, null)];
            foreach (var difference in differences)
            {
                yield return difference;
            }
        }
    }

    private static DifferenceKind? Values(JsonValue sent, JsonValue kept, string path)
    {
        var (one, other) = (Raw(sent), Raw(kept));
        if (one == other)
        {
            return null;
        }

        if (sent.GetValueKind() == JsonValueKind.Number && kept.GetValueKind() == JsonValueKind.Number)
        {
            return Number(one) == Number(other) ? DifferenceKind.Rounded : DifferenceKind.Changed;
        }

        return sent.GetValueKind() == JsonValueKind.String && kept.GetValueKind() == JsonValueKind.String
            && Agree(sent.GetValue<string>(), kept.GetValue<string>(), path)
            ? null
            : DifferenceKind.Changed;
    }

    private static bool Agree(string sent, string kept, string path) =>
        path.EndsWith(".reference", StringComparison.Ordinal)
            ? ResourcePlaces.IsSame(sent, kept)
            : sent.Contains('T', StringComparison.Ordinal)
                && DateTimeOffset.TryParse(sent, CultureInfo.InvariantCulture, DateTimeStyles.None, out var one)
                && DateTimeOffset.TryParse(kept, CultureInfo.InvariantCulture, DateTimeStyles.None, out var other)
                && one.EqualsExact(other);

    /// <summary>A server may move an attachment's bytes to an address of its own, if it still says whose they are.</summary>
    private static bool IsHeldElsewhere(string name, JsonObject sent, JsonObject kept) =>
        name == "data" && kept.Text("url") is not null && sent.Text("hash") is { } hash && kept.Text("hash") == hash;

    private static decimal? Number(string text) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static string Raw(JsonValue value) => value.ToJsonString();
}
