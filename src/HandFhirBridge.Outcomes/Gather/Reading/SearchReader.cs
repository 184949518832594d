using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>
/// Reads our results page by page. What comes back is compared with what was asked for: servers that ignore a parameter answer with
/// everything they have, and some lead round in circles.
/// </summary>
/// <param name="requests">The source.</param>
/// <param name="state">The source's state, with a search under way.</param>
/// <param name="lines">Takes what came.</param>
/// <param name="notes">What was noticed.</param>
/// <param name="progress">Is told after each page.</param>
internal sealed class SearchReader(FhirRequests requests, SourceState state, IncomingLines lines, ICollection<string> notes, IProgress<GatherProgress> progress)
{
    // Every result of a session has the category; reports have one code. Both are searched by token, which all servers know.
    private static readonly (string Type, string Query)[] Asked =
    [
        ("Observation", $"category={Uri.EscapeDataString($"{CodeSystems.Icf}|{OwnResources.Category}")}"),
        ("DiagnosticReport", $"code={Uri.EscapeDataString($"{CodeSystems.Measure}|{MeasureCodes.Report}")}"),
    ];

    public async Task ReadAsync(CancellationToken cancellation)
    {
        foreach (var (type, query) in Asked.Where(a => !state.Pending!.Done.Contains(a.Type)))
        {
            try
            {
                await ReadAsync(type, query, state.Pending!.Next, cancellation);
            }
            catch (GatherException refused) when (refused.Problem.Kind == GatherProblems.Refused && state.Pending!.Next is not null)
            {
                // A page asked for again after a pause may be gone: the search is then begun anew.
                await ReadAsync(type, query, null, cancellation);
            }
            catch (GatherException refused) when (refused.Problem.Kind == GatherProblems.Refused && state.Pending!.Since is not null)
            {
                notes.Add($"the server refuses _lastUpdated for {type}; everything was read anew");
                state.Pending!.Since = null;
                await ReadAsync(type, query, null, cancellation);
            }

            state.Pending!.Next = null;
            state.Pending.Done.Add(type);
            lines.Account();
        }
    }

    private async Task ReadAsync(string type, string query, string? next, CancellationToken cancellation)
    {
        var pending = state.Pending!;
        if (next is null)
        {
            lines.Drop(type);
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        var (others, old, matched) = (0L, 0L, 0L);
        long? total = null;
        var whole = next is null;
        var address = next ?? First(type, query, pending.Since);
        while (address is not null)
        {
            if (!seen.Add(address))
            {
                throw new GatherException(GatherProblems.PagesWithoutEnd.At("", $"{requests.Source.Name} leads from page to page of {type} without coming to an end."));
            }

            using var page = await ResultPage.ReadAsync(requests, requests.Follow(address), type, cancellation);
            pending.Until ??= page.Date ?? requests.Clock.GetUtcNow();
            total = page.Total ?? total;
            matched += page.Resources.Count;
            others += page.Resources.Count(r => !OwnResources.Are(r));
            old += pending.Since is { } since ? page.Resources.Count(r => MergedFile.Updated(r) < since) : 0;
            lines.Add(type, page.Resources.Where(OwnResources.Are));
            pending.Next = address = page.Next;
            lines.Account();
            progress.Report(new(requests.Source.Name, type, pending.Read));
        }

        Note(others > 0, $"{others} resources of type {type} came that are not ours; the server does not select by {query[..query.IndexOf('=', StringComparison.Ordinal)]}, or others use the same code");
        Note(old > 0, $"{old} resources of type {type} came that had not changed; the server does not select by _lastUpdated");
        Note(whole && total > matched, $"the server counts {total} of type {type} and gave {matched}");
    }

    private string First(string type, string query, DateTimeOffset? since) =>
        string.Create(CultureInfo.InvariantCulture, $"{type}?{query}&_count={requests.Options.PageSize}{Since(since)}");

    private static string Since(DateTimeOffset? since) => since is { } moment
        ? $"&_lastUpdated={Uri.EscapeDataString("ge" + moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture))}"
        : "";

    private void Note(bool noticed, string text)
    {
        if (noticed)
        {
            notes.Add(text);
        }
    }
}
