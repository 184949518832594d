using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>One page of a search.</summary>
/// <param name="Resources">What matched; outcomes and included resources of other types are left out.</param>
/// <param name="Next">Address of the next page; null on the last.</param>
/// <param name="Total">As the server counts; null where it does not.</param>
/// <param name="Date">The server's time; null where it does not say.</param>
internal sealed record ResultPage(IReadOnlyList<JsonElement> Resources, string? Next, long? Total, DateTimeOffset? Date) : IDisposable
{
    private JsonDocument? document;

    /// <summary>Reads a page.</summary>
    public static async Task<ResultPage> ReadAsync(FhirRequests requests, Uri address, string type, CancellationToken cancellation)
    {
        var (json, date) = await requests.GetJsonAsync(address, cancellation);
        var bundle = json.RootElement;
        if (OwnResources.Text(bundle, "resourceType") != "Bundle")
        {
            json.Dispose();
            throw requests.NotUnderstood($"something else than a Bundle to a search for {type}");
        }

        var entries = bundle.TryGetProperty("entry", out var list) && list.ValueKind == JsonValueKind.Array ? list.EnumerateArray().ToList() : [];
        var links = bundle.TryGetProperty("link", out var all) && all.ValueKind == JsonValueKind.Array ? all.EnumerateArray().ToList() : [];
        return new(
            [.. entries.Select(e => e.TryGetProperty("resource", out var resource) ? resource : default).Where(r => OwnResources.Text(r, "resourceType") == type)],
            links.Where(l => OwnResources.Text(l, "relation") == "next").Select(l => OwnResources.Text(l, "url")).FirstOrDefault(),
            bundle.TryGetProperty("total", out var total) && total.TryGetInt64(out var number) ? number : null,
            date)
        { document = json };
    }

    public void Dispose() => document?.Dispose();
}
