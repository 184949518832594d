using System.Globalization;
using System.Net;
using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Reads by the bulk export (FHIR Bulk Data Access): begins it, asks how it is doing, reads its files, and has it removed.</summary>
/// <param name="requests">The source.</param>
/// <param name="state">The source's state, with an export under way.</param>
/// <param name="lines">Takes what came.</param>
/// <param name="removed">Takes what was deleted, as <c>Type/id</c>.</param>
/// <param name="progress">Is told how far it is.</param>
internal sealed class ExportReader(FhirRequests requests, SourceState state, IncomingLines lines, ISet<string> removed, IProgress<GatherProgress> progress)
{
    private const string Types = "Observation,DiagnosticReport,Patient,Condition";
    private static readonly TimeSpan Ask = TimeSpan.FromSeconds(2);

    private readonly List<JsonElement> taken = [];
    private readonly ExportFiles files = new(requests);

    private string Name => requests.Source.Name;

    public async Task ReadAsync(string address, CancellationToken cancellation)
    {
        var manifest = state.Pending!.StatusUrl is { } known ? await ManifestAsync(known, cancellation) : null;
        if (manifest is null)
        {
            // An export begun before may be gone by now.
            await BeginAsync(address, cancellation);
            manifest = await ManifestAsync(state.Pending.StatusUrl!, cancellation)
                ?? throw Failed("forgot the export at once");
        }

        state.Pending.Until = manifest.Until;
        foreach (var (type, url) in manifest.Output.Where(f => Types.Split(',').Contains(f.Type) && !state.Pending.Done.Contains(f.Url)))
        {
            await files.ReadAsync(url, manifest.RequiresToken, line => Take(type, line), cancellation);
            Flush(type);
            state.Pending.Done.Add(url);
            lines.Account();
            progress.Report(new(Name, type, state.Pending.Read));
        }

        foreach (var url in manifest.Deleted)
        {
            await files.ReadAsync(url, manifest.RequiresToken, TakeDeleted, cancellation);
        }
    }

    /// <summary>Lets the server forget the export; what it answers does not matter.</summary>
    public async Task RemoveAsync(CancellationToken cancellation)
    {
        if (state.Pending?.StatusUrl is { } url)
        {
            try
            {
                using var response = await requests.SendAsync(() => new HttpRequestMessage(HttpMethod.Delete, requests.Follow(url)), requests.Source.Client, cancellation);
            }
            catch (GatherException)
            {
                // It expires by itself; all of it is read.
            }
        }
    }

    private async Task BeginAsync(string address, CancellationToken cancellation)
    {
        var since = state.Pending!.Since is { } moment
            ? $"&_since={Uri.EscapeDataString(moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture))}"
            : "";
        var begin = new Uri(requests.Source.BaseUrl, $"{address}?_type={Uri.EscapeDataString(Types)}{since}");
        using var response = await requests.SendAsync(() => FhirRequests.Get(begin, "application/fhir+json", "respond-async"), requests.Source.Client, cancellation);
        if (response.StatusCode != HttpStatusCode.Accepted || Location(response) is not { } status)
        {
            throw Failed($"answers {(int)response.StatusCode} to the beginning of an export");
        }

        state.Pending.StatusUrl = requests.Follow(status).AbsoluteUri;
        state.Pending.Done.Clear();
        state.Pending.Lengths.Clear();
        state.Pending.Read = 0;
        lines.Account();
    }

    /// <returns>Null if the server does not know the export any more.</returns>
    private async Task<ExportManifest?> ManifestAsync(string url, CancellationToken cancellation)
    {
        var until = requests.Clock.GetUtcNow() + requests.Options.ExportTimeout;
        while (requests.Clock.GetUtcNow() < until)
        {
            using var response = await requests.SendAsync(() => FhirRequests.Get(requests.Follow(url), "application/json"), requests.Source.Client, cancellation);
            switch (response.StatusCode)
            {
                case HttpStatusCode.OK:
                    using (var json = await requests.ReadAsync(response, cancellation))
                    {
                        return ExportManifest.Read(json.RootElement);
                    }

                case HttpStatusCode.Accepted:
                    progress.Report(new(Name, $"export {Progress(response)}", 0));
                    await Task.Delay(requests.Asked(response, Ask), requests.Clock, cancellation);
                    break;
                case HttpStatusCode.NotFound or HttpStatusCode.Gone:
                    return null;
                default:
                    throw Failed($"answers {(int)response.StatusCode} when asked how the export is doing");
            }
        }

        throw Failed($"had not ended the export within {requests.Options.ExportTimeout.TotalMinutes.ToString("0", CultureInfo.InvariantCulture)} minutes");
    }

    private void Take(string type, string line)
    {
        using var json = JsonDocument.Parse(line);
        var resource = json.RootElement;
        if (OwnResources.Text(resource, "resourceType") == type && (type is "Patient" or "Condition" || (OwnResources.Are(resource) && OwnResources.AreAskedFor(resource))))
        {
            taken.Add(resource.Clone());
            if (taken.Count >= 1000)
            {
                Flush(type);
            }
        }
    }

    private void Flush(string type)
    {
        lines.Add(type, taken);
        taken.Clear();
    }

    private void TakeDeleted(string line)
    {
        using var bundle = JsonDocument.Parse(line);
        if (bundle.RootElement.TryGetProperty("entry", out var entries) && entries.ValueKind == JsonValueKind.Array)
        {
            removed.UnionWith(entries.EnumerateArray()
                .Select(e => e.TryGetProperty("request", out var request) && OwnResources.Text(request, "method") == "DELETE" ? OwnResources.Text(request, "url") : null)
                .OfType<string>());
        }
    }

    private static string? Location(HttpResponseMessage response) =>
        response.Content.Headers.ContentLocation?.ToString() ?? (response.Headers.TryGetValues("Content-Location", out var values) ? values.First() : null);

    private static string Progress(HttpResponseMessage response) => response.Headers.TryGetValues("X-Progress", out var values) ? values.First() : "under way";

    private GatherException Failed(string what) => new(GatherProblems.ExportFailed.At("", $"{Name} {what}."));
}
