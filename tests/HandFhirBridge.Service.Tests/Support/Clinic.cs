using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>What a clinic does with the service and its record, over HTTP alone.</summary>
internal static class Clinic
{
    /// <summary>Every example session, as its file has it.</summary>
    public static IReadOnlyList<string> ExampleSessions { get; } =
        [.. Directory.GetFiles(Repository.Example("sessions"), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];

    /// <summary>Puts the charts of the example patients into a FHIR server.</summary>
    public static async Task LoadPatientsAsync(HttpClient fhir, CancellationToken cancellation)
    {
        using var body = new StringContent(await File.ReadAllTextAsync(Repository.Example("patients.json"), cancellation));
        body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        using var answer = await fhir.PostAsync(new Uri("", UriKind.Relative), body, cancellation);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, await answer.Content.ReadAsStringAsync(cancellation));
    }

    /// <summary>Hands in a document.</summary>
    public static async Task<HttpResponseMessage> PostAsync(HttpClient api, string document, CancellationToken cancellation, string path = "sessions")
    {
        using var body = new StringContent(document, Encoding.UTF8, "application/json");
        return await api.PostAsync(new Uri(path, UriKind.Relative), body, cancellation);
    }

    /// <summary>Hands in a document that must be accepted.</summary>
    /// <returns><c>site/sessionId</c>.</returns>
    public static async Task<string> SubmitAsync(HttpClient api, string document, CancellationToken cancellation)
    {
        using var answer = await PostAsync(api, document, cancellation);
        answer.StatusCode.ShouldBe(HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync(cancellation));
        var node = JsonNode.Parse(document)!;
        return $"{node["site"]}/{node["sessionId"]}";
    }

    /// <summary>Waits until a session is delivered; fails at once when it is held or failed.</summary>
    /// <returns>Its state as the API tells it.</returns>
    public static async Task<JsonNode> DeliveredAsync(HttpClient api, string key, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(5));
        while (true)
        {
            var state = JsonNode.Parse(await api.GetStringAsync(new Uri($"sessions/{key}", UriKind.Relative), limit.Token))!;
            if ((string?)state["state"] == "delivered")
            {
                return state;
            }

            ((string?)state["state"]).ShouldBeOneOf(["accepted", "sending"], state.ToJsonString());
            await Task.Delay(50, limit.Token);
        }
    }

    /// <summary>A resource or a search answer, as JSON.</summary>
    public static async Task<JsonNode> GetAsync(HttpClient fhir, string path, CancellationToken cancellation) =>
        JsonNode.Parse(await fhir.GetStringAsync(new Uri(path, UriKind.Relative), cancellation))!;

    /// <summary>All matches of a search, over all its pages; the matches alone, without what was included.</summary>
    public static async Task<List<JsonNode>> SearchAsync(HttpClient fhir, string query, CancellationToken cancellation)
    {
        var found = new List<JsonNode>();
        for (var next = new Uri(query, UriKind.Relative); next is not null;)
        {
            var page = JsonNode.Parse(await fhir.GetStringAsync(next, cancellation))!;
            ((string?)page["type"]).ShouldBe("searchset");
            found.AddRange((page["entry"]?.AsArray() ?? []).Where(e => (string?)e!["search"]?["mode"] is null or "match").Select(e => e!["resource"]!));
            next = page["link"]?.AsArray().Where(l => (string?)l!["relation"] == "next").Select(l => new Uri((string)l!["url"]!)).SingleOrDefault();
        }

        return found;
    }
}
