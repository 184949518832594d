using System.Text.Json;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Several requests as one: a batch (R4 http.html#transaction), whose entries stand or fall each by itself.</summary>
internal static class BatchRequest
{
    /// <summary>Sends them where the target takes batches.</summary>
    /// <param name="target">Where.</param>
    /// <param name="requests">Method, relative address, and what is written there; null where it is read.</param>
    /// <param name="cancellation">Ends the wait.</param>
    /// <returns>
    /// An entry for each request, in their order; null if the target does not answer a batch as one, so that it must be asked by single
    /// requests. They also tell whether it is in trouble.
    /// </returns>
    public static async Task<List<JsonElement>?> AskAsync(
        FhirTarget target, IReadOnlyCollection<(string Method, string Address, JsonObject? Resource)> requests, CancellationToken cancellation)
    {
        if (!target.Memory.TakesBatches)
        {
            return null;
        }

        var answer = await target.PostAsync(Batch(requests).ToBytes(), cancellation);
        if (answer is { Succeeded: true, ResourceType: "Bundle" } && answer.Resource.Objects("entry").ToList() is var entries && entries.Count == requests.Count)
        {
            return entries;
        }

        if (answer.Kind == AnswerKind.Answered && answer.Status is not (408 or 429 or >= 500))
        {
            target.Memory.ForgoBatches();
        }

        return null;
    }

    private static JsonObject Batch(IEnumerable<(string Method, string Address, JsonObject? Resource)> requests) => new()
    {
        ["resourceType"] = "Bundle",
        ["type"] = "batch",
        ["entry"] = new JsonArray([.. requests.Select(request => Entry(request.Method, request.Address, request.Resource))]),
    };

    private static JsonObject Entry(string method, string address, JsonObject? resource)
    {
        var entry = new JsonObject { ["request"] = new JsonObject { ["method"] = method, ["url"] = address } };
        if (resource is not null)
        {
            entry["resource"] = resource;
        }

        return entry;
    }
}
