using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What came of reading back what was written.</summary>
/// <param name="Found">By 0-based entry.</param>
/// <param name="IsComplete">True if the report and all its results are there.</param>
public sealed record ReadBack(ImmutableDictionary<int, RecordedEntry> Found, bool IsComplete)
{
    /// <summary>
    /// Asks for the report by its identifier together with its results in one search, and for everything else, and where there
    /// is no report resource, by id. One request does it where the target takes batches.
    /// </summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">What was written.</param>
    /// <param name="ids">Ids the target gave.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static async Task<ReadBack> OfAsync(
        FhirTarget target, SessionBundle bundle, ImmutableDictionary<int, string> ids, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(ids);
        var found = ImmutableDictionary<int, RecordedEntry>.Empty;
        if (!bundle.IsDocument)
        {
            var search = $"DiagnosticReport?{bundle.Report.Condition}&_include=DiagnosticReport:result";
            var results = Results(bundle);
            var others = bundle.Entries.Where(entry => !results.Contains(entry) && ids.ContainsKey(entry.Index)).Select(entry => (entry.Index, ids[entry.Index])).ToList();
            var together = await ReadBackBatch.AskAsync(target, bundle, search, others, cancellation);
            if (together is { } all && Among(all.Hits, bundle) is var whole && IsAllThere(bundle, whole))
            {
                return new(whole.SetItems(all.Read), true);
            }

            found = Among((await FhirSearch.RunAsync(target, search, cancellation)).Hits, bundle);
            if (!IsAllThere(bundle, found))
            {
                return new(found, false);
            }
        }

        foreach (var entry in bundle.Entries.Where(entry => !found.ContainsKey(entry.Index) && ids.ContainsKey(entry.Index)))
        {
            var answer = await target.GetAsync($"{entry.Type}/{ids[entry.Index]}", cancellation);
            if (answer.Succeeded && answer.ResourceType == entry.Type)
            {
                found = found.Add(entry.Index, new(ids[entry.Index], answer.Resource.Object("meta").Text("versionId"), answer.Resource));
            }
        }

        return new(found, IsAllThere(bundle, found));
    }

    private static ImmutableDictionary<int, RecordedEntry> Among(ImmutableArray<SearchHit> hits, SessionBundle bundle) => bundle.Entries
        .Where(entry => entry.Identifier is not null)
        .Select(entry => (entry.Index, Hit: hits.FirstOrDefault(hit => EntrySearch.Carries(hit, entry))))
        .Where(pair => pair.Hit is not null)
        .ToImmutableDictionary(pair => pair.Index, pair => new RecordedEntry(pair.Hit!.Id, pair.Hit.VersionId, pair.Hit.Resource));

    /// <summary>The report and its results; of a document, everything that was written with it.</summary>
    private static bool IsAllThere(SessionBundle bundle, ImmutableDictionary<int, RecordedEntry> found)
    {
        if (bundle.IsDocument)
        {
            return found.Count == bundle.Entries.Length;
        }

        return found.ContainsKey(bundle.Report.Index) && Results(bundle).All(entry => found.ContainsKey(entry.Index));
    }

    private static List<SessionEntry> Results(SessionBundle bundle)
    {
        var named = bundle.Report.Resource.Objects("result").Select(result => result.Text("reference")).ToHashSet();
        return [.. bundle.Entries.Where(entry => named.Contains(entry.FullUrl))];
    }
}
