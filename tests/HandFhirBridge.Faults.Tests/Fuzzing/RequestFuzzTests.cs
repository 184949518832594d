using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Faults.Tests.Support;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;
using Microsoft.Extensions.DependencyInjection;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>
/// Whatever is asked of the running service, it answers: no 5xx, refusals as an OperationOutcome with a code, nothing of the
/// inside, and the ledger holds what was answered with 202 and no more. FAULTS_REQUESTS sets how many (default 1,000).
/// </summary>
public sealed class RequestFuzzTests : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-fuzz-").FullName;
    private readonly HashSet<(string, string, int)> acknowledged = [];
    private readonly Dictionary<int, int> statuses = [];
    private readonly List<string> faults = [];
    private BridgeHost host = null!;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var settings = new BridgeSettings { Demonstration = true, DataDirectory = folder, Listen = "http://127.0.0.1:0" };
        settings.Target.EmbeddedPort = 0;
        host = await BridgeHost.StartAsync(settings, listen: true, Cancellation);
    }

    public async ValueTask DisposeAsync()
    {
        await host.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Ask_Anything_IsAnsweredWithoutACrashOrAHalfWrite()
    {
        var requests = Plan.Number("FAULTS_REQUESTS") ?? 1_000;
        Plan.Say($"FAULTS_SEED={Plan.Seed}");
        using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = new(host.Addresses.First() + "/") };
        var fuzz = new FuzzedRequest(new Random(Plan.Seed));
        for (var number = 0; number < requests; number++)
        {
            using var request = fuzz.Next();
            await AskAsync(client, request, $"request {number}, {request.Method} {request.RequestUri}");
        }

        var held = await host.Services.GetRequiredService<ILedger>().ListAsync(new() { Take = 10_000 }, Cancellation);
        Plan.Say($"{requests} requests: {string.Join(", ", statuses.OrderBy(s => s.Key).Select(s => $"{s.Value} x {s.Key}"))}; {acknowledged.Count} committed; {faults.Count} faults");
        faults.Take(20).ShouldBeEmpty();
        acknowledged.ShouldNotBeEmpty();
        held.Select(e => (e.Key.Site, e.Key.SessionId, e.Key.Revision)).ShouldBe(acknowledged, ignoreOrder: true);
    }

    private async Task AskAsync(HttpClient client, HttpRequestMessage request, string what)
    {
        HttpResponseMessage answer;
        try
        {
            answer = await client.SendAsync(request, Cancellation);
        }
        catch (HttpRequestException none) when (none.HttpRequestError is HttpRequestError.InvalidResponse or HttpRequestError.ResponseEnded || none.InnerException is IOException)
        {
            // An upload that is refused before it is read may end in a closed connection (RFC 9112 section 9.6).
            statuses[0] = statuses.GetValueOrDefault(0) + 1;
            return;
        }

        using (answer)
        {
            var status = (int)answer.StatusCode;
            statuses[status] = statuses.GetValueOrDefault(status) + 1;
            var body = await answer.Content.ReadAsStringAsync(Cancellation);
            if (status >= 500 || Refusal.ShowsInside(body) || (status >= 400 && !IsBare(request, status, body) && !IsOutcome(body)))
            {
                faults.Add($"{what}: {status} {body[..Math.Min(body.Length, 400)]}");
            }

            if (answer.StatusCode == HttpStatusCode.Accepted)
            {
                var key = JsonNode.Parse(body)!;
                acknowledged.Add(((string)key["site"]!, (string)key["sessionId"]!, (int)key["revision"]!));
            }
        }
    }

    /// <summary>HEAD has no body (RFC 9110 section 9.3.2); an address with a zero byte is refused by the HTTP server before the service hears of it.</summary>
    private static bool IsBare(HttpRequestMessage request, int status, string body) =>
        body.Length == 0 && (request.Method == HttpMethod.Head || (status == 400 && request.RequestUri!.OriginalString.Contains("%00", StringComparison.Ordinal)));

    private static bool IsOutcome(string body)
    {
        try
        {
            var outcome = JsonNode.Parse(body);
            return (string?)outcome?["resourceType"] == "OperationOutcome"
                && outcome["issue"]!.AsArray().Where(i => (string?)i!["severity"] is "error" or "fatal").All(i => Refusal.IsCode((string?)i!["details"]?["coding"]?[0]?["code"]));
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
