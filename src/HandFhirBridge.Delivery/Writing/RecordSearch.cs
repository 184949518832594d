using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Looks for a session at a target by its identifiers, before anything is written a second time.</summary>
public static class RecordSearch
{
    private const int IdentifiersPerSearch = 10;

    /// <summary>Looks for every resource of the session.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">The session.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static Task<RecordedSession> FindAsync(FhirTarget target, SessionBundle bundle, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        return FindAsync(target, bundle, Groups(bundle), cancellation);
    }

    /// <summary>Looks for one resource of the session.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">The session.</param>
    /// <param name="entry">The resource; it has an identifier or a tag.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static Task<RecordedSession> FindAsync(FhirTarget target, SessionBundle bundle, SessionEntry entry, CancellationToken cancellation) =>
        FindAsync(target, bundle, [[entry]], cancellation);

    /// <summary>Revision that a report says it is of; null if it does not say.</summary>
    internal static int? Revision(JsonElement report) => report.Objects("extension")
        .FirstOrDefault(e => e.Text("url")?.EndsWith("/hfb-ext-session-revision", StringComparison.Ordinal) == true).Number("valuePositiveInt");

    private static async Task<RecordedSession> FindAsync(
        FhirTarget target, SessionBundle bundle, IEnumerable<IReadOnlyList<SessionEntry>> groups, CancellationToken cancellation)
    {
        var found = ImmutableDictionary.CreateBuilder<int, RecordedEntry>();
        foreach (var entries in groups)
        {
            var hits = await EntrySearch.FindAsync(target, bundle, entries, cancellation);
            if (hits.Failure is { } failure)
            {
                return RecordedSession.Nothing with { Failure = failure };
            }

            foreach (var entry in entries)
            {
                var same = hits.Hits.Where(hit => Is(hit, entry)).ToList();
                if (Doubt(bundle, entry, same, hits.IsTrusted) is { } doubt)
                {
                    return RecordedSession.Nothing with { Doubt = doubt };
                }

                if (same is [var hit])
                {
                    found[entry.Index] = new(hit.Id, hit.VersionId, hit.Resource);
                }
            }
        }

        return new(found.ToImmutable(), IsThisRevision(bundle, found), null, null);
    }

    /// <summary>
    /// A document is another one in each revision, by its identifier. A server that stored half of a transaction may have the report of
    /// this revision and results of an earlier one: then a status gives it away.
    /// </summary>
    private static bool IsThisRevision(SessionBundle bundle, ImmutableDictionary<int, RecordedEntry>.Builder found) =>
        found.TryGetValue(bundle.Report.Index, out var report) && (bundle.IsDocument || Revision(report.Resource) == Revision(bundle.Report.Resource))
        && bundle.Entries.All(entry => !found.TryGetValue(entry.Index, out var kept) || entry.Type == "Device"
            || kept.Resource.Text("status") == entry.Resource.Text("status"));

    private static Problem? Doubt(SessionBundle bundle, SessionEntry entry, List<SearchHit> hits, bool trusted) => hits switch
    {
        { Count: > 1 } => DeliveryProblems.Duplicates.At(
            entry.Label, $"The target holds {hits.Count} resources with the identifier of {entry.Label}."),
        [var hit] when ChartSearch.IsOf(hit, bundle.Chart) == false => DeliveryProblems.OtherChart.At(
            entry.Label, $"The target holds {entry.Label} of this session in another chart."),
        [] when !trusted => DeliveryProblems.SearchNotTrusted.At(
            entry.Label, $"The target answered the search for {entry.Label} with other resources, or not to the end."),
        _ => null,
    };

    private static IEnumerable<IReadOnlyList<SessionEntry>> Groups(SessionBundle bundle) =>
    [
        .. bundle.Entries.Where(entry => entry.Identifier is not null).GroupBy(entry => entry.Type)
            .SelectMany(group => group.Chunk(IdentifiersPerSearch)),
        .. bundle.Entries.Where(entry => entry.Identifier is null && entry.Condition is not null).Select(entry => new[] { entry }),
    ];

    private static bool Is(SearchHit hit, SessionEntry entry) =>
        EntrySearch.Carries(hit, entry) && (entry.Identifier is not null || Sources(hit.Resource).SetEquals(Sources(entry.Resource)));

    /// <summary>Digests of the documents a Provenance names: they tell the revisions of a session apart.</summary>
    private static HashSet<string?> Sources(JsonElement provenance) =>
        [.. provenance.Objects("entity").Select(entity => entity.Object("what").Text("display"))];
}
