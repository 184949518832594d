using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Faults.Tests.Servers;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>The judge of the kill campaigns is judged: it must see each of the three mistakes.</summary>
public sealed class VerdictTests : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-verdict-").FullName;
    private FaultyServer server = null!;
    private Feed feed = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        server = await FaultyServer.StartAsync(new(Behaviour.Good, Rung.TransactionOfUpdates), 1, Cancellation);
        await Charts.LoadAsync(server.Truth, Cancellation);
        feed = new(folder);
        feed.FillTo(2);
        for (var number = 0; number < feed.Count; number++)
        {
            var bundle = JsonNode.Parse(feed[number].Bundle.Span)!;
            foreach (var subject in bundle["entry"]!.AsArray().Select(e => e!["resource"]!["subject"]).OfType<JsonObject>())
            {
                subject["reference"] = "Patient/" + Charts.Of(number).Id;
            }

            await SendAsync(HttpMethod.Post, "", bundle);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await server.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Read_EverythingInItsPlaceOnce_FindsNoMistake() => await ShouldBeAsync(0, 0, 0);

    [Fact]
    public async Task Read_OneResourceDeleted_IsLost()
    {
        using var answer = await server.Truth.DeleteAsync(new Uri("Observation/" + (string)(await TrialAsync())["id"]!, UriKind.Relative), Cancellation);
        answer.EnsureSuccessStatusCode();

        await ShouldBeAsync(1, 0, 0);
    }

    [Fact]
    public async Task Read_AnotherValue_IsLost()
    {
        var trial = await TrialAsync();
        trial["valueQuantity"]!["value"] = JsonNode.Parse("99.90");
        await SendAsync(HttpMethod.Put, "Observation/" + (string)trial["id"]!, trial);

        await ShouldBeAsync(1, 0, 0);
    }

    [Fact]
    public async Task Read_OneResourceTwice_IsDoubled()
    {
        await SendAsync(HttpMethod.Post, "Observation", await TrialAsync());

        await ShouldBeAsync(0, 1, 0);
    }

    [Fact]
    public async Task Read_SomethingNobodyAccepted_IsDoubled()
    {
        var trial = await TrialAsync();
        trial["identifier"]![0]!["value"] = "north-clinic/other";
        await SendAsync(HttpMethod.Post, "Observation", trial);

        await ShouldBeAsync(0, 1, 0);
    }

    [Fact]
    public async Task Read_InTheChartOfTheTwin_IsMisfiled()
    {
        var trial = await TrialAsync();
        trial["subject"]!["reference"] = "Patient/" + Charts.Of(((string)trial["subject"]!["reference"]!).EndsWith('0') ? 1 : 0).Id;
        await SendAsync(HttpMethod.Put, "Observation/" + (string)trial["id"]!, trial);

        await ShouldBeAsync(0, 0, 1);
    }

    private async Task<JsonObject> TrialAsync() => (await server.ReadAllAsync("Observation", Cancellation)).First(o => o["valueQuantity"] is not null);

    private async Task ShouldBeAsync(int lost, int doubled, int misfiled)
    {
        var verdict = await Verdict.ReadAsync(server, feed, Cancellation);
        (verdict.Lost.Length, verdict.Doubled.Length, verdict.Misfiled.Length).ShouldBe((lost, doubled, misfiled));
    }

    private async Task SendAsync(HttpMethod method, string path, JsonNode body)
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative)) { Content = new StringContent(body.ToJsonString()) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        using var answer = await server.Truth.SendAsync(request, Cancellation);
        answer.IsSuccessStatusCode.ShouldBeTrue(await answer.Content.ReadAsStringAsync(Cancellation));
    }
}
