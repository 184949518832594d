using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Turns a session into a transaction (R4 http.html#transaction). What the target already holds is updated where it lies,
/// whatever the rung; the rung says how the rest comes to be.
/// </summary>
public static class TransactionRequest
{
    /// <summary>UTF-8 JSON of the transaction, one entry for each of the session's, in their order.</summary>
    public static byte[] Build(SessionBundle bundle, Rung rung, RecordedSession recorded)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(recorded);
        return new JsonObject
        {
            ["resourceType"] = "Bundle",
            ["type"] = "transaction",
            ["entry"] = new JsonArray([.. bundle.Entries.Select(entry => Entry(entry, rung, recorded.Found.GetValueOrDefault(entry.Index)))]),
        }.ToBytes();
    }

    private static JsonObject Entry(SessionEntry entry, Rung rung, RecordedEntry? recorded)
    {
        var resource = (JsonObject)entry.Resource.DeepClone();
        JsonObject request;
        if (recorded is null && rung == Rung.TransactionOfConditionalCreates)
        {
            resource.Remove("id");
            request = new() { ["method"] = "POST", ["url"] = entry.Type };
            if (entry.Condition is { } condition)
            {
                request["ifNoneExist"] = condition;
            }
        }
        else
        {
            var id = recorded?.Id ?? entry.Id;
            resource["id"] = id;
            request = new() { ["method"] = "PUT", ["url"] = $"{entry.Type}/{id}" };
        }

        return new() { ["fullUrl"] = entry.FullUrl, ["resource"] = resource, ["request"] = request };
    }
}
