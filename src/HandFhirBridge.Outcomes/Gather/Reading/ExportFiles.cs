using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Reads the files of an export (FHIR Bulk Data Access, "Output File Request").</summary>
/// <param name="requests">The source.</param>
internal sealed class ExportFiles(FhirRequests requests)
{
    /// <summary>Reads a file line by line.</summary>
    /// <param name="url">Where it lies.</param>
    /// <param name="requiresToken">Whether it wants the sign-in, which goes to the source's own server alone.</param>
    /// <param name="take">Takes each line that is not empty.</param>
    /// <param name="cancellation">Ends it.</param>
    public async Task ReadAsync(string url, bool requiresToken, Action<string> take, CancellationToken cancellation)
    {
        var address = new Uri(requests.Source.BaseUrl, url);
        var client = requests.Source.Owns(address) ? requests.Source.Client : requiresToken ? null : requests.Source.Plain;
        using var response = await requests.SendAsync(
            () => FhirRequests.Get(client is null ? requests.Follow(url) : address, "application/fhir+ndjson"), client ?? requests.Source.Client, cancellation);
        requests.Demand(response, address);
        try
        {
            using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            using var text = new StreamReader(await response.Content.ReadAsStreamAsync(cancellation));
            limit.CancelAfter(requests.Options.Timeout);
            while (await text.ReadLineAsync(limit.Token) is { } line)
            {
                limit.CancelAfter(requests.Options.Timeout); // a long file may take its time, a stalled one not
                if (line.Length > 0)
                {
                    take(line);
                }
            }
        }
        catch (JsonException broken)
        {
            throw requests.NotUnderstood("a file that is not NDJSON", broken);
        }
        catch (Exception lost) when (FhirRequests.IsLost(lost, cancellation))
        {
            throw new GatherException(GatherProblems.NotReached.At("", $"A file of {requests.Source.Name} broke off."), lost);
        }
    }
}
