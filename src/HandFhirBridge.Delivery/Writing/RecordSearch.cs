using System.Collections.Immutable;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Looks for a session at a target by its identifiers, before anything is written a second time.</summary>
public static class RecordSearch
{
    private const int IdentifiersPerSearch = 10;

    /// <summary>Looks for every resource of the session.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">The session.</param>
    /// <param name="patient">The chart it belongs to.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static async Task<RecordedSession> FindAsync(
        FhirTarget target, SessionBundle bundle, PatientMatch patient, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        var found = ImmutableDictionary.CreateBuilder<int, RecordedEntry>();
        var report = (JsonObject?)null;
        foreach (var (query, entries) in Queries(bundle))
        {
            var result = await FhirSearch.RunAsync(target, query, cancellation);
            if (result.Failure is { } failure)
            {
                return RecordedSession.Nothing with { Failure = failure };
            }

            foreach (var entry in entries)
            {
                var hits = result.Hits.Where(hit => Is(hit, entry)).ToList();
                if (hits.Count > 1)
                {
                    return RecordedSession.Nothing with { Doubt = DeliveryProblems.Duplicates.At(
                        entry.Label, $"The target holds {hits.Count} resources with the identifier of {entry.Label}.") };
                }

                if (hits.Count == 1 && IsElsewhere(hits[0].Resource, patient))
                {
                    return RecordedSession.Nothing with { Doubt = DeliveryProblems.OtherChart.At(
                        entry.Label, $"The target holds {entry.Label} of this session in another chart.") };
                }

                if (hits.Count == 1)
                {
                    found[entry.Index] = new(hits[0].Id, hits[0].VersionId);
                    report = entry == bundle.Report ? hits[0].Resource : report;
                }
            }
        }

        return new(found.ToImmutable(), Revision(report) == Revision(bundle.Report.Resource), null, null);
    }

    private static IEnumerable<(string Query, IReadOnlyList<SessionEntry> Entries)> Queries(SessionBundle bundle)
    {
        foreach (var group in bundle.Entries.Where(entry => entry.Identifier is not null).GroupBy(entry => entry.Type))
        {
            foreach (var chunk in group.Chunk(IdentifiersPerSearch))
            {
                var values = chunk.Select(entry => FhirSearch.Token(entry.Identifier!.Value.System, entry.Identifier.Value.Value));
                yield return ($"{group.Key}?identifier={string.Join(',', values)}", chunk);
            }
        }

        foreach (var entry in bundle.Entries.Where(entry => entry.Identifier is null && entry.Condition is not null))
        {
            yield return ($"{entry.Type}?{entry.Condition}", [entry]);
        }
    }

    private static bool Is(SearchHit hit, SessionEntry entry)
    {
        if (hit.Type != entry.Type)
        {
            return false;
        }

        return entry.Identifier is { } identifier
            ? hit.Carries(identifier.System, identifier.Value)
            : hit.Resource.Object("meta").Objects("tag").Any(tag => (tag.Text("system")!, tag.Text("code")!) == entry.Tag)
                && Sources(hit.Resource).SetEquals(Sources(entry.Resource));
    }

    /// <summary>Digests of the documents a Provenance names: they tell the revisions of a session apart.</summary>
    private static HashSet<string?> Sources(JsonObject provenance) =>
        [.. provenance.Objects("entity").Select(entity => entity.Object("what").Text("display"))];

    private static bool IsElsewhere(JsonObject resource, PatientMatch patient)
    {
        var id = resource.Object("subject").Text("reference") is { } reference && reference.LastIndexOf("Patient/", StringComparison.Ordinal) is var at and >= 0
            ? reference[(at + "Patient/".Length)..].Split('/')[0]
            : null;
        return id is not null && id != patient.Id && !patient.ReplacedIds.Contains(id);
    }

    private static int? Revision(JsonObject? report) => report.Objects("extension")
        .FirstOrDefault(e => e.Text("url")?.EndsWith("/hfb-ext-session-revision", StringComparison.Ordinal) == true).Number("valuePositiveInt");
}
