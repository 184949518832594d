using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Faults;

/// <summary>What is accepted ends in the record exactly once, however often the process is killed on the way.</summary>
public sealed class KillTests
{
    // Enough to meet a kill at each step; the large campaigns are those of HandFhirBridge.Faults.Tests.
    private const int Sessions = 40;
    private const int Kills = 3;

    [Fact]
    public async Task Serve_KilledWhileDelivering_RecordsEveryAcceptedSessionExactlyOnce()
    {
        var cancellation = TestContext.Current.CancellationToken;
        var data = Directory.CreateTempSubdirectory("hfb-kill-").FullName;
        try
        {
            var accepted = await SubmitKillingAsync(data, cancellation);
            accepted.Count.ShouldBe(Sessions);

            using var service = await ServiceProcess.StartAsync(data, cancellation);
            await DeliveredAsync(service, accepted, cancellation);

            var recorded = await ReportIdentifiersAsync(service.Record, cancellation);
            recorded.Count.ShouldBe(Sessions);
            recorded.Order(StringComparer.Ordinal).ShouldBe(accepted.Order(StringComparer.Ordinal));
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static async Task<List<string>> SubmitKillingAsync(string data, CancellationToken cancellation)
    {
        var example = Directory.GetFiles(Repository.Example("sessions"), "*.json", SearchOption.AllDirectories).Order().First();
        var template = await File.ReadAllTextAsync(example, cancellation);
        var accepted = new List<string>();
        // A fixed seed: the instants differ from machine to machine anyway, the plan does not.
        var random = new Random(20260504);
        var killAfter = Enumerable.Range(0, Kills).Select(_ => random.Next(1, Sessions)).ToHashSet();
        var service = await ServiceProcess.StartAsync(data, cancellation);
        try
        {
            await LoadPatientsAsync(service.Record, cancellation);
            for (var number = 0; number < Sessions; number++)
            {
                var document = Document(template, number);
                await PostUntilAcceptedAsync();
                accepted.Add(Key(document));
                if (killAfter.Contains(number))
                {
                    service.Kill();
                    service.Dispose();
                    service = await ServiceProcess.StartAsync(data, cancellation);
                }

                async Task PostUntilAcceptedAsync()
                {
                    using var body = new StringContent(document, Encoding.UTF8, "application/json");
                    using var answer = await service.Api.PostAsync(new Uri("sessions", UriKind.Relative), body, cancellation);
                    answer.StatusCode.ShouldBe(HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync(cancellation));
                }
            }

            service.Kill();
            return accepted;
        }
        finally
        {
            service.Dispose();
        }
    }

    private static async Task LoadPatientsAsync(HttpClient record, CancellationToken cancellation)
    {
        using var body = new StringContent(await File.ReadAllTextAsync(Repository.Example("patients.json"), cancellation));
        body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        using var answer = await record.PostAsync(new Uri("", UriKind.Relative), body, cancellation);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, await answer.Content.ReadAsStringAsync(cancellation));
    }

    private static async Task DeliveredAsync(ServiceProcess service, List<string> keys, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(3));
        foreach (var key in keys)
        {
            while (await StateAsync(key) is var state && state != "delivered")
            {
                state.ShouldBeOneOf("accepted", "sending");
                await Task.Delay(100, limit.Token);
            }
        }

        async Task<string?> StateAsync(string key)
        {
            var answer = await service.Api.GetStringAsync(new Uri($"sessions/{key}", UriKind.Relative), limit.Token);
            return (string?)JsonNode.Parse(answer)!["state"];
        }
    }

    private static async Task<List<string>> ReportIdentifiersAsync(HttpClient record, CancellationToken cancellation)
    {
        var found = new List<string>();
        var next = new Uri("DiagnosticReport?_count=50", UriKind.Relative);
        while (next is not null)
        {
            var page = JsonNode.Parse(await record.GetStringAsync(next, cancellation))!;
            found.AddRange(page["entry"]!.AsArray().Select(e => (string)e!["resource"]!["identifier"]![0]!["value"]!));
            next = page["link"]!.AsArray().Where(l => (string?)l!["relation"] == "next").Select(l => new Uri((string)l!["url"]!)).SingleOrDefault();
        }

        return found;
    }

    private static string Document(string template, int number)
    {
        var node = JsonNode.Parse(template)!;
        node["sessionId"] = $"{node["sessionId"]}-{number:000}";
        return node.ToJsonString();
    }

    private static string Key(string document)
    {
        var node = JsonNode.Parse(document)!;
        return $"{node["site"]}/{node["sessionId"]}";
    }
}
