using System.Collections.Immutable;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>Goes from a chart that was merged into another to the one that stands for it (<c>Patient.link</c>, type <c>replaced-by</c>).</summary>
internal sealed partial class ReplacedCharts(FhirTarget target)
{
    private const int MostHops = 5;

    /// <summary>The chart at the end of the links, and those passed.</summary>
    public async Task<(SearchHit? Chart, ImmutableArray<string> Passed, PatientLookup? Stop)> FollowAsync(SearchHit chart, CancellationToken cancellation)
    {
        var passed = ImmutableArray<string>.Empty;
        while (true)
        {
            var links = Successors(chart);
            if (links.Count == 0)
            {
                return (chart, passed, null);
            }

            passed = passed.Add(chart.Id);
            if (links.Count > 1 || IdOf(links[0]) is not { } next || passed.Contains(next) || passed.Length > MostHops)
            {
                return (null, passed, PatientLookup.Of(Unclear()));
            }

            var (found, stop) = await ReadAsync(next, cancellation);
            if (found is null)
            {
                return (null, passed, stop);
            }

            chart = found;
        }
    }

    private static List<string?> Successors(SearchHit chart) =>
        [.. chart.Resource.Objects("link").Where(l => l.Text("type") == "replaced-by").Select(l => l.Object("other").Text("reference")).Distinct()];

    private static Problem Unclear() =>
        IdentityProblems.ReplacedUnclear.At("$.patient.identifier", "The links from the replaced chart do not lead to exactly one chart.");

    /// <summary>Id of a reference to a patient of this target; null for any other.</summary>
    private string? IdOf(string? reference)
    {
        var relative = reference?.StartsWith(target.Base.AbsoluteUri, StringComparison.Ordinal) == true
            ? reference[target.Base.AbsoluteUri.Length..]
            : reference;
        return relative is not null && PatientReference().Match(relative) is { Success: true } match ? match.Groups[1].Value : null;
    }

    private async Task<(SearchHit? Chart, PatientLookup? Stop)> ReadAsync(string id, CancellationToken cancellation)
    {
        var answer = await target.GetAsync($"Patient/{id}", cancellation);
        if (answer.Succeeded && answer.ResourceType == "Patient" && answer.Resource.Text("id") == id)
        {
            return (new("Patient", id, answer.Resource, true), null);
        }

        // A link into nothing is the chart's matter; any other answer is the target's.
        return (null, answer.Succeeded || answer.Status is 404 or 410 ? PatientLookup.Of(Unclear()) : PatientLookup.Of(answer));
    }

    [GeneratedRegex(@"^Patient/([A-Za-z0-9\-.]{1,64})(?:/_history/[^/]+)?$")]
    private static partial Regex PatientReference();
}
