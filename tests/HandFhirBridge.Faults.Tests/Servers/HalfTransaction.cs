using System.Text.Json.Nodes;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>Stores some entries of a transaction and answers 200, as servers do that run it as a batch.</summary>
internal static class HalfTransaction
{
    public static async Task<Answer> StoreAsync(Faults faults, Sent sent)
    {
        faults.Met();
        var whole = JsonNode.Parse(sent.Body)!.AsObject();
        var entries = whole["entry"]!.AsArray().Select(e => e!.AsObject()).ToList();
        var kept = Kept(faults, entries);
        if (kept.Count == 0)
        {
            return new(200, Response([]).ToJsonString());
        }

        var part = whole.DeepClone().AsObject();
        part["entry"] = new JsonArray([.. kept.Order().Select(i => entries[i].DeepClone())]);
        var answer = await faults.AskAsync(sent, part.ToJsonString());
        if (answer.Status != 200)
        {
            return answer;
        }

        var stored = new Queue<JsonNode>(JsonNode.Parse(answer.Body)!["entry"]!.AsArray().Select(e => e!.DeepClone()));
        return new(200, Response(entries.Select((_, i) => kept.Contains(i) ? stored.Dequeue() : Refused())).ToJsonString());
    }

    /// <summary>A random part, with what it refers to inside the transaction.</summary>
    private static HashSet<int> Kept(Faults faults, List<JsonObject> entries)
    {
        var kept = Enumerable.Range(0, entries.Count).Where(_ => faults.Happens(0.3)).ToHashSet();
        var open = new Queue<int>(kept);
        while (open.TryDequeue(out var index))
        {
            var text = entries[index]["resource"]!.ToJsonString();
            for (var other = 0; other < entries.Count; other++)
            {
                if (other != index && text.Contains((string)entries[other]["fullUrl"]!, StringComparison.Ordinal) && kept.Add(other))
                {
                    open.Enqueue(other);
                }
            }
        }

        return kept;
    }

    private static JsonObject Refused() => new() { ["response"] = new JsonObject { ["status"] = "500 Internal Server Error" } };

    private static JsonObject Response(IEnumerable<JsonNode> entries) =>
        new() { ["resourceType"] = "Bundle", ["type"] = "transaction-response", ["entry"] = new JsonArray([.. entries]) };
}
