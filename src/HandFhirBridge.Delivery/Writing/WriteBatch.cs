using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Several updates as one request: a batch (R4 http.html#transaction), whose entries stand or fall each by itself.</summary>
internal static class WriteBatch
{
    /// <summary>UTF-8 JSON of the batch.</summary>
    /// <param name="updates">Where, <c>Type/id</c>, and what.</param>
    public static byte[] Of(IEnumerable<(string Place, JsonObject Resource)> updates) => new JsonObject
    {
        ["resourceType"] = "Bundle",
        ["type"] = "batch",
        ["entry"] = new JsonArray([.. updates.Select(update => new JsonObject
        {
            ["resource"] = update.Resource,
            ["request"] = new JsonObject { ["method"] = "PUT", ["url"] = update.Place },
        })]),
    }.ToBytes();
}
