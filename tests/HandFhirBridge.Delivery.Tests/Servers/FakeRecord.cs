using System.Globalization;
using System.Text.Json.Nodes;
using WireMock;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>What a scripted target keeps: transactions by R4's rules, searched by identifier or tag.</summary>
public sealed class FakeRecord
{
    private int lastId;

    /// <summary>By <c>Type/id</c>.</summary>
    public Dictionary<string, JsonObject> Stored { get; } = [];

    /// <summary>What the server does to a resource before it keeps it; null keeps it as it came.</summary>
    public Action<JsonObject>? OnKeep { get; set; }

    /// <summary>Writes made, so that a second one shows.</summary>
    public int Writes { get; private set; }

    /// <summary>Parameters a server knows by identifier, tag and patient; a day is compared as R4 says, from its begin to its end.</summary>
    public static bool Matches(JsonObject resource, string query)
    {
        var known = Parameters(query).Where(p => p.Name is "identifier" or "_tag" or "patient" or "date").ToList();
        return known.Count > 0 && known.TrueForAll(p => Matches(resource, p.Name, p.Value));
    }

    public IEnumerable<JsonObject> Search(string type, string query)
    {
        var hits = Stored.Where(s => s.Key.StartsWith(type + "/", StringComparison.Ordinal) && Matches(s.Value, query)).Select(s => s.Value).ToList();
        var included = Parameters(query).Any(p => p.Name == "_include")
            ? hits.SelectMany(h => h["result"] as JsonArray ?? []).Select(r => Stored.GetValueOrDefault((string)r!["reference"]!)).OfType<JsonObject>()
            : [];
        return hits.Concat(included);
    }

    /// <summary>A create or an update of one resource (R4 http.html#create, #update, #ccreate).</summary>
    public ResponseMessage Write(SentRequest sent)
    {
        var existing = sent.IfNoneExist is { } condition ? Search(sent.Type, "?" + condition).ToList() : [];
        if (existing.Count > 0)
        {
            return Confirm(200, sent.Type, existing[0]);
        }

        var place = sent.Id is null ? $"{sent.Type}/server-{++lastId}" : sent.Path;
        var before = Stored.GetValueOrDefault(place);
        if (sent.IfMatch is { } match && match != $"W/\"{VersionOf(before)}\"")
        {
            return ScriptedTarget.Outcome(412, "conflict", "Another version");
        }

        return Confirm(before is null ? 201 : 200, sent.Type, Keep(place, sent.Body!.DeepClone().AsObject()));
    }

    /// <summary>Stores, with the next version.</summary>
    public JsonObject Keep(string place, JsonObject resource)
    {
        var version = int.Parse(VersionOf(Stored.GetValueOrDefault(place)) ?? "0", CultureInfo.InvariantCulture) + 1;
        OnKeep?.Invoke(resource);
        resource["id"] = place.Split('/')[1];
        resource["meta"] ??= new JsonObject();
        resource["meta"]!["versionId"] = version.ToString(CultureInfo.InvariantCulture);
        Stored[place] = resource;
        Writes++;
        return resource;
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
            Keep(place, JsonNode.Parse(text)!.AsObject());
        }

        return new() { ["response"] = new JsonObject { ["status"] = known ? "200 OK" : "201 Created", ["location"] = $"{place}/_history/1" } };
    }

    private static ResponseMessage Confirm(int status, string type, JsonObject resource) => ScriptedTarget.Answer(
        status, resource.ToJsonString(), "application/fhir+json",
        ("Location", $"http://record.example/fhir/{type}/{(string)resource["id"]!}/_history/{VersionOf(resource)}"), ("ETag", $"W/\"{VersionOf(resource)}\""));

    private static string? VersionOf(JsonObject? resource) => (string?)resource?["meta"]?["versionId"];

    private static bool Matches(JsonObject resource, string name, string value)
    {
        var tokens = value.Split(',');
        return name switch
        {
            "identifier" => Identifiers(resource).Any(i => tokens.Contains($"{i["system"]}|{i["value"]}")),
            "_tag" => (resource["meta"]?["tag"] as JsonArray ?? []).Any(t => tokens.Contains($"{t!["system"]}|{t["code"]}")),
            "patient" => (string?)resource["subject"]?["reference"] == $"Patient/{value}",
            _ => IsWithin((string?)resource["effectiveDateTime"], value),
        };
    }

    private static bool IsWithin(string? time, string bound) => time is not null && (bound[..2] switch
    {
        "ge" => string.CompareOrdinal(time[..10], bound[2..]) >= 0,
        "lt" => string.CompareOrdinal(time[..10], bound[2..]) < 0,
        _ => time[..10] == bound,
    });

    private static IEnumerable<JsonNode> Identifiers(JsonObject resource) =>
        resource["identifier"] switch { JsonArray list => list.OfType<JsonNode>(), JsonObject one => [one], _ => [] };

    private static IEnumerable<(string Name, string Value)> Parameters(string query) => query.TrimStart('?').Split('&')
        .Select(p => p.Split('=', 2)).Where(p => p.Length == 2).Select(p => (p[0], Uri.UnescapeDataString(p[1]).Replace("\\", "", StringComparison.Ordinal)));
}
