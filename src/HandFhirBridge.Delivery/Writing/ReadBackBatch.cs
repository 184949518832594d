using System.Collections.Immutable;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Reads a written session back by one request: a batch (R4 http.html#transaction) that only reads.</summary>
internal static class ReadBackBatch
{
    /// <summary>Asks for the report with its results by a search, and for everything else by id.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">What was written.</param>
    /// <param name="search">Relative address of the search.</param>
    /// <param name="ids">Ids by 0-based entry of what is read by id.</param>
    /// <param name="cancellation">Ends the wait.</param>
    /// <returns>
    /// What the search gave and what was read, by 0-based entry; null if the target does not answer such a batch, so that it must be
    /// asked by single requests.
    /// </returns>
    public static async Task<(ImmutableArray<SearchHit> Hits, ImmutableDictionary<int, RecordedEntry> Read)?> AskAsync(
        FhirTarget target, SessionBundle bundle, string search, IReadOnlyList<(int Index, string Id)> ids, CancellationToken cancellation)
    {
        if (!target.Memory.TakesBatches)
        {
            return null;
        }

        string[] addresses = [search, .. ids.Select(read => $"{bundle.Entries[read.Index].Type}/{read.Id}")];
        var answer = await target.PostAsync(Batch(addresses), cancellation);
        var entries = answer is { Succeeded: true, ResourceType: "Bundle" } ? answer.Resource.Objects("entry").ToList() : [];
        if (entries.Count != addresses.Length || FhirSearch.WholePage(Answered(entries[0])) is not { } hits)
        {
            // Declared, and not done: the single requests tell whether the target is in trouble.
            if (answer.Kind == AnswerKind.Answered && answer.Status is not (408 or 429 or >= 500))
            {
                target.Memory.ForgoBatches();
            }

            return null;
        }

        return (hits, ids.Zip(entries.Skip(1).Select(Answered))
            .Where(pair => pair.Second.Text("resourceType") == bundle.Entries[pair.First.Index].Type)
            .ToImmutableDictionary(pair => pair.First.Index, pair => new RecordedEntry(
                pair.First.Id, pair.Second.Object("meta").Text("versionId"), pair.Second!)));
    }

    private static byte[] Batch(IEnumerable<string> addresses) => new JsonObject
    {
        ["resourceType"] = "Bundle",
        ["type"] = "batch",
        ["entry"] = new JsonArray(
            [.. addresses.Select(address => new JsonObject { ["request"] = new JsonObject { ["method"] = "GET", ["url"] = address } })]),
    }.ToBytes();

    private static JsonObject? Answered(JsonObject entry) => StoredEntry.Of(entry).Succeeded ? entry.Object("resource") : null;
}
