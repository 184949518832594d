using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>What a scripted target keeps: transactions by R4's rules, searched by identifier or tag.</summary>
public sealed class FakeRecord
{
    private int lastId;

    /// <summary>By <c>Type/id</c>.</summary>
    public Dictionary<string, JsonObject> Stored { get; } = [];

    /// <summary>Writes made, so that a second one shows.</summary>
    public int Writes { get; private set; }

    public static bool Matches(JsonObject resource, string query)
    {
        var (name, value) = Parameters(query).FirstOrDefault(p => p.Name is "identifier" or "_tag");
        var tokens = value?.Split(',') ?? [];
        return name switch
        {
            "identifier" => Identifiers(resource).Any(i => tokens.Contains($"{i["system"]}|{i["value"]}")),
            "_tag" => (resource["meta"]?["tag"] as JsonArray ?? []).Any(t => tokens.Contains($"{t!["system"]}|{t["code"]}")),
            _ => false,
        };
    }

    public IEnumerable<JsonObject> Search(string type, string query)
    {
        var hits = Stored.Where(s => s.Key.StartsWith(type + "/", StringComparison.Ordinal) && Matches(s.Value, query)).Select(s => s.Value).ToList();
        var included = Parameters(query).Any(p => p.Name == "_include")
            ? hits.SelectMany(h => h["result"] as JsonArray ?? []).Select(r => Stored.GetValueOrDefault((string)r!["reference"]!)).OfType<JsonObject>()
            : [];
        return hits.Concat(included);
    }

    public JsonObject Transact(JsonObject transaction, Func<int, bool>? only = null)
    {
        var entries = transaction["entry"]!.AsArray().Select((e, index) => (Entry: e!.AsObject(), Index: index)).Where(e => only is null || only(e.Index)).ToList();
        var places = entries.ToDictionary(e => (string)e.Entry["fullUrl"]!, e => Place(e.Entry));
        return new()
        {
            ["resourceType"] = "Bundle",
            ["type"] = "transaction-response",
            ["entry"] = new JsonArray([.. entries.Select(e => Store(e.Entry, places))]),
        };
    }

    private string Place(JsonObject entry)
    {
        var request = entry["request"]!;
        if ((string)request["method"]! == "PUT")
        {
            return (string)request["url"]!;
        }

        var type = (string)request["url"]!;
        var existing = request["ifNoneExist"] is { } condition ? Search(type, "?" + (string)condition!).ToList() : [];
        return existing.Count > 0 ? $"{type}/{(string)existing[0]["id"]!}" : $"{type}/server-{++lastId}";
    }

    private JsonObject Store(JsonObject entry, Dictionary<string, string> places)
    {
        var place = places[(string)entry["fullUrl"]!];
        var known = Stored.ContainsKey(place);
        var created = (string)entry["request"]!["method"]! == "POST";
        if (!(known && created))
        {
            var text = places.Aggregate(entry["resource"]!.ToJsonString(), (json, pair) => json.Replace(pair.Key, pair.Value, StringComparison.Ordinal));
            var resource = JsonNode.Parse(text)!.AsObject();
            resource["id"] = place.Split('/')[1];
            Stored[place] = resource;
            Writes++;
        }

        return new() { ["response"] = new JsonObject { ["status"] = known ? "200 OK" : "201 Created", ["location"] = $"{place}/_history/1" } };
    }

    private static IEnumerable<JsonNode> Identifiers(JsonObject resource) =>
        resource["identifier"] switch { JsonArray list => list.OfType<JsonNode>(), JsonObject one => [one], _ => [] };

    private static IEnumerable<(string Name, string Value)> Parameters(string query) => query.TrimStart('?').Split('&')
        .Select(p => p.Split('=', 2)).Where(p => p.Length == 2).Select(p => (p[0], Uri.UnescapeDataString(p[1]).Replace("\\", "", StringComparison.Ordinal)));
}
