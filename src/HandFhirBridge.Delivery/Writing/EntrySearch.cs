using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Searches for resources of one type by identifier, in ways that also work where a target reads a list as one value, does not
/// know the parameter, or ignores it.
/// </summary>
internal static class EntrySearch
{
    /// <summary>Searches for these resources.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">The session.</param>
    /// <param name="entries">Of one type; several only with identifiers.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static async Task<EntryHits> FindAsync(
        FhirTarget target, SessionBundle bundle, IReadOnlyList<SessionEntry> entries, CancellationToken cancellation)
    {
        var hits = await AskAsync(target, entries, cancellation);
        if (entries.Count > 1 && hits is { Failure: null, IsTrusted: true } && !entries.Any(entry => hits.Hits.Any(hit => Carries(hit, entry))))
        {
            hits = await AskOneByOneAsync(target, entries, cancellation);
        }

        var refused = hits.Failure?.Status is 400 or 422 or 501;
        return (refused || !hits.IsTrusted) && ChartSearch.Reaches(entries[0].Type)
            ? await ChartSearch.FindAsync(target, bundle, entries, cancellation)
            : hits;
    }

    /// <summary>True if the hit has what the entry is found by; of a Provenance that is so in every revision.</summary>
    public static bool Carries(SearchHit hit, SessionEntry entry)
    {
        if (hit.Type != entry.Type)
        {
            return false;
        }

        return entry.Identifier is { } identifier
            ? hit.Carries(identifier.System, identifier.Value)
            : hit.Resource.Object("meta").Objects("tag").Any(tag => entry.Tag is { } own && tag.Text("system") == own.System && tag.Text("code") == own.Code);
    }

    /// <summary>A target that reads a list of values as one value finds nothing: whether the first alone is found tells.</summary>
    private static async Task<EntryHits> AskOneByOneAsync(FhirTarget target, IReadOnlyList<SessionEntry> entries, CancellationToken cancellation)
    {
        var all = ImmutableArray<SearchHit>.Empty;
        foreach (var entry in entries)
        {
            var one = await AskAsync(target, [entry], cancellation);
            all = all.AddRange(one.Hits);
            if (one.Failure is not null || !one.IsTrusted || (entry == entries[0] && one.Hits.IsEmpty))
            {
                return one with { Hits = all };
            }
        }

        return new(all, null, true);
    }

    private static async Task<EntryHits> AskAsync(FhirTarget target, IReadOnlyList<SessionEntry> entries, CancellationToken cancellation)
    {
        var query = entries is [{ } only]
            ? only.Condition!
            : $"identifier={string.Join(',', entries.Select(entry => FhirSearch.Token(entry.Identifier!.Value.System, entry.Identifier.Value.Value)))}";
        var result = await FhirSearch.RunAsync(target, $"{entries[0].Type}?{query}", cancellation);
        var missing = !entries.All(entry => result.Hits.Any(hit => Carries(hit, entry)));
        var foreign = result.Hits.Any(hit => hit.IsMatch && !entries.Any(entry => Carries(hit, entry)));
        return new(result.Hits, result.Failure, !(missing && (foreign || !result.IsComplete)));
    }
}
