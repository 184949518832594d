using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Reads the patients that results are about, and their conditions, by name: never a server's whole list.</summary>
/// <param name="requests">The source.</param>
/// <param name="lines">Takes what came.</param>
/// <param name="notes">What was noticed.</param>
/// <param name="progress">Is told after each page.</param>
internal sealed class PatientReader(FhirRequests requests, IncomingLines lines, ICollection<string> notes, IProgress<GatherProgress> progress)
{
    // Addresses stay well below the 2,000 characters that every server and proxy takes.
    private const int Batch = 30;

    public async Task ReadAsync(IReadOnlyCollection<string> ids, CancellationToken cancellation)
    {
        var conditions = true;
        foreach (var batch in ids.Order(StringComparer.Ordinal).Chunk(Batch))
        {
            var list = string.Join(',', batch.Select(Uri.EscapeDataString));
            await PatientsAsync(batch, list, cancellation);
            conditions = conditions && await ConditionsAsync(batch, list, cancellation);
        }
    }

    private async Task PatientsAsync(string[] ids, string list, CancellationToken cancellation)
    {
        var missing = ids.ToHashSet(StringComparer.Ordinal);
        await PagesAsync("Patient", $"Patient?_id={list}&_count={Batch}", r => OwnResources.Text(r, "id") is { } id && missing.Remove(id), cancellation);
        foreach (var id in missing)
        {
            var address = new Uri(requests.Source.BaseUrl, $"Patient/{Uri.EscapeDataString(id)}");
            using var response = await requests.SendAsync(() => FhirRequests.Get(address, "application/fhir+json"), requests.Source.Client, cancellation);
            if (response.IsSuccessStatusCode)
            {
                using var patient = await requests.ReadAsync(response, cancellation);
                lines.Add("Patient", [patient.RootElement]);
            }
            else if ((int)response.StatusCode is not (404 or 410))
            {
                requests.Demand(response, requests.Source.BaseUrl);
            }
        }
    }

    /// <returns>False if the server does not let conditions be read; nothing else depends on them.</returns>
    private async Task<bool> ConditionsAsync(string[] ids, string list, CancellationToken cancellation)
    {
        var asked = ids.ToHashSet(StringComparer.Ordinal);
        try
        {
            await PagesAsync("Condition", $"Condition?patient={list}&_count=200", r => OwnResources.PatientOf(r) is { } id && asked.Contains(id), cancellation);
            return true;
        }
        catch (GatherException refused) when (refused.Problem.Kind == GatherProblems.Refused)
        {
            notes.Add($"conditions cannot be read: {refused.Problem.Message}");
            return false;
        }
    }

    private async Task PagesAsync(string type, string query, Func<JsonElement, bool> asked, CancellationToken cancellation)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var address = query; address is not null;)
        {
            if (!seen.Add(address))
            {
                throw new GatherException(GatherProblems.PagesWithoutEnd.At("", $"{requests.Source.Name} leads from page to page of {type} without coming to an end."));
            }

            using var page = await ResultPage.ReadAsync(requests, requests.Follow(address), type, cancellation);
            progress.Report(new(requests.Source.Name, type, lines.Add(type, page.Resources.Where(asked))));
            address = page.Next;
        }
    }
}
