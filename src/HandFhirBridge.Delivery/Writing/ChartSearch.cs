using System.Globalization;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Searches through the chart for what a target does not find by identifier: first around the day of the session, then, as
/// some targets miss a value with a time of day when they are asked for a day, all of it.
/// </summary>
internal static class ChartSearch
{
    /// <summary>True for types that R4 lets be searched by patient.</summary>
    public static bool Reaches(string type) => type is "Observation" or "DiagnosticReport" or "QuestionnaireResponse" or "DocumentReference";

    /// <summary>Searches for resources of one type.</summary>
    public static async Task<EntryHits> FindAsync(
        FhirTarget target, SessionBundle bundle, IReadOnlyList<SessionEntry> entries, CancellationToken cancellation)
    {
        var hits = new EntryHits([], null, false);
        foreach (var query in Queries(bundle, entries[0]))
        {
            var result = await FhirSearch.RunAsync(target, query, cancellation);
            var elsewhere = result.Hits.Any(hit => hit.IsMatch && !IsInChart(hit, bundle.Chart));
            hits = new(result.Hits, result.Failure, result.IsComplete && !elsewhere);
            if (entries.All(entry => hits.Hits.Any(hit => EntrySearch.Carries(hit, entry))))
            {
                return hits with { IsTrusted = true };
            }
        }

        return hits;
    }

    /// <summary>Whether the resource names this chart, or one that it replaced, as its subject; null if it names none.</summary>
    public static bool? IsOf(SearchHit hit, PatientMatch chart)
    {
        var id = hit.Resource.Object("subject").Text("reference") is { } reference && reference.LastIndexOf("Patient/", StringComparison.Ordinal) is var at and >= 0
            ? reference[(at + "Patient/".Length)..].Split('/')[0]
            : null;
        return id is null ? null : id == chart.Id || chart.ReplacedIds.Contains(id);
    }

    private static bool IsInChart(SearchHit hit, PatientMatch chart) => IsOf(hit, chart) == true;

    private static IEnumerable<string> Queries(SessionBundle bundle, SessionEntry entry)
    {
        var all = $"{entry.Type}?patient={Uri.EscapeDataString(bundle.Chart.Id)}";
        if (entry.Type == "Observation" && entry.Resource.Text("effectiveDateTime") is { Length: >= 10 } time
            && DateOnly.TryParseExact(time[..10], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            // A day more on both sides: the target may keep another offset.
            yield return string.Create(CultureInfo.InvariantCulture, $"{all}&date=ge{day.AddDays(-1):yyyy-MM-dd}&date=lt{day.AddDays(2):yyyy-MM-dd}");
        }

        yield return all;
    }
}
