using System.Collections.Immutable;
using System.Text.Json;
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
        string[] addresses = [search, .. ids.Select(read => $"{bundle.Entries[read.Index].Type}/{read.Id}")];
        if (await BatchRequest.AskAsync(target, [.. addresses.Select(address => ("GET", address, (JsonObject?)null))], cancellation) is not { } entries)
        {
            return null;
        }

        if (FhirSearch.WholePage(Answered(entries[0])) is not { } hits)
        {
            target.Memory.ForgoBatches();
            return null;
        }

        return (hits, ids.Zip(entries.Skip(1).Select(Answered))
            .Where(pair => pair.Second.Text("resourceType") == bundle.Entries[pair.First.Index].Type)
            .ToImmutableDictionary(pair => pair.First.Index, pair => new RecordedEntry(
                pair.First.Id, pair.Second.Object("meta").Text("versionId"), pair.Second)));
    }

    private static JsonElement Answered(JsonElement entry) => StoredEntry.Of(entry).Succeeded ? entry.Object("resource") : default;
}
