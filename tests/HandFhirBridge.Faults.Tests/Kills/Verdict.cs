using System.Collections.Immutable;
using System.Text.Json.Nodes;
using HandFhirBridge.Faults.Tests.Servers;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>What the server holds against what was accepted. The ledger is not asked.</summary>
internal sealed record Verdict(int Sessions, int Resources, ImmutableArray<string> Lost, ImmutableArray<string> Doubled, ImmutableArray<string> Misfiled)
{
    private static readonly string[] Compared = ["status", "code", "valueQuantity", "valueCodeableConcept", "dataAbsentReason", "effectiveDateTime"];

    public static async Task<Verdict> ReadAsync(FaultyServer server, Feed feed, CancellationToken cancellation)
    {
        var accepted = Accepted(feed);
        var found = new List<(string Key, JsonObject Resource)>();
        // Documents are what a bridge would fall to that thinks the server takes no resources.
        foreach (var type in accepted.Values.Select(a => (string)a.Resource["resourceType"]!).Append("DocumentReference").Distinct())
        {
            found.AddRange((await server.ReadAllAsync(type, cancellation)).Select(resource => (KeyOf(resource), resource)));
        }

        var held = found.ToLookup(f => f.Key, f => f.Resource, StringComparer.Ordinal);
        return new(
            feed.Count,
            found.Count,
            [.. accepted.Where(a => !held[a.Key].Any(h => Same(a.Value.Resource, h))).Select(a => a.Key)],
            [.. held.Where(h => h.Count() > 1 || !accepted.ContainsKey(h.Key)).Select(h => h.Key)],
            [.. accepted.Where(a => held[a.Key].Any(h => h["subject"] is { } subject && (string?)subject["reference"] != "Patient/" + a.Value.Chart)).Select(a => a.Key)]);
    }

    public override string ToString() =>
        $"{Sessions} sessions accepted, {Resources} resources read; {Lost.Length} lost, {Doubled.Length} doubled, {Misfiled.Length} misfiled";

    /// <summary>Every resource of every session in its latest revision; of an earlier one its Provenance stays beside it.</summary>
    private static Dictionary<string, (JsonObject Resource, string Chart)> Accepted(Feed feed)
    {
        var accepted = new Dictionary<string, (JsonObject, string)>(StringComparer.Ordinal);
        for (var number = 0; number < feed.Count; number++)
        {
            var chart = Charts.Of(number % 5 == 4 ? number - 1 : number).Id;
            foreach (var entry in JsonNode.Parse(feed[number].Bundle.Span)!["entry"]!.AsArray())
            {
                var resource = entry!["resource"]!.AsObject();
                accepted[KeyOf(resource)] = (resource, chart);
            }
        }

        return accepted;
    }

    private static string KeyOf(JsonObject resource)
    {
        var identifier = resource["identifier"] is JsonArray list ? list[0] : resource["identifier"];
        // A Provenance has no identifier in R4; its tags name session and revision.
        var key = identifier is null
            ? string.Join(' ', (resource["meta"]?["tag"]?.AsArray() ?? []).Select(t => $"{t!["system"]}|{t["code"]}").Order(StringComparer.Ordinal))
            : $"{identifier["system"]}|{identifier["value"]}";
        return $"{resource["resourceType"]} {key}";
    }

    private static bool Same(JsonObject accepted, JsonObject held) =>
        Array.TrueForAll(Compared, name => accepted[name]?.ToJsonString() == held[name]?.ToJsonString());
}
