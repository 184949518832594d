using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Hosting;

/// <summary>What leaves the service beside its answers, in a whole delivery: measured and traced, and nobody named.</summary>
public sealed class TelemetryTests
{
    // Of the two invented patients, as the documents and the charts hold them.
    private static readonly string[] Secrets = ["Tarrowby", "Marrowick", "HHC-004417", "1988-04-12"];

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Delivery_WithACollector_SendsMetricsAndTracesAndLogsWithoutThePatient()
    {
        using var folder = new DataFolder();
        await using var collector = await Collector.StartAsync();
        using var service = await ServiceProcess.StartAsync(
            folder.Path,
            [
                ("Telemetry__OtlpEndpoint", collector.Address), ("Telemetry__LogLevel", "Debug"), ("OTEL_EXPORTER_OTLP_PROTOCOL", "http/protobuf"),
                ("OTEL_METRIC_EXPORT_INTERVAL", "200"), ("OTEL_BSP_SCHEDULE_DELAY", "100"),
            ],
            Cancellation);
        await Clinic.LoadPatientsAsync(service.Record, Cancellation);

        var document = await DocumentAsync();
        Secrets.ShouldContain((string?)document["patient"]!["familyName"]);
        Secrets.ShouldContain((string?)document["patient"]!["birthDate"]);
        Secrets.ShouldContain((string?)document["patient"]!["identifier"]!["value"]);
        document["sessionId"] = "visit-1";
        await Clinic.DeliveredAsync(service.Api, await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation), Cancellation);
        document["sessionId"] = "visit-2";
        document["patient"]!["familyName"] = "Marrowick";
        await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        // Refused at the door: the problem quotes the value to whoever sent it, and to nobody else.
        document["patient"]!["birthDate"] = "1988-04-31";
        (await Clinic.PostAsync(service.Api, document.ToJsonString(), Cancellation)).Dispose();

        foreach (var metric in new[]
        {
            "hfb.ledger.oldest_unsent.age", "hfb.ledger.unsent", "hfb.ledger.sessions", "hfb.target.down", "hfb.delivery.attempts", "hfb.delivery.attempt.duration", "HFB4109",
        })
        {
            await collector.UntilAsync("metrics", metric);
        }

        await collector.UntilAsync("traces", "deliver session");
        await collector.UntilAsync("traces", "HFB4109");
        while (!service.Output.Contains("visit-2", StringComparison.Ordinal))
        {
            await Task.Delay(50, Cancellation);
        }

        foreach (var text in new[] { collector.Of("metrics"), collector.Of("traces"), service.Output })
        {
            Secrets.Where(secret => text.Contains(secret, StringComparison.OrdinalIgnoreCase)).ShouldBeEmpty();
        }

        var entries = service.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(line => !line.StartsWith("Listening on", StringComparison.Ordinal)).ToList();
        entries.ShouldAllBe(line => JsonNode.Parse(line, null, default)!["Timestamp"] != null);
        entries.ShouldContain(line => line.Contains("visit-1", StringComparison.Ordinal) && line.Contains("Delivered", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Ready_TargetThatDoesNotAnswer_IsDegradedAndNamesIt()
    {
        using var folder = new DataFolder();
        // Port 9 (discard) of this machine: nobody listens there.
        using var service = await ServiceProcess.StartAsync(folder.Path, [("Target__BaseUrl", "http://127.0.0.1:9/fhir")], Cancellation);
        foreach (var n in Enumerable.Range(1, 3))
        {
            var document = await DocumentAsync();
            document["sessionId"] = $"visit-{n}";
            await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        }

        JsonNode health;
        do
        {
            await Task.Delay(50, Cancellation);
            health = await Clinic.GetAsync(service.Api, "health/ready", Cancellation);
        }
        while ((string?)health["status"] != "degraded");

        var target = health["targets"]!.AsArray().ShouldHaveSingleItem()!;
        ((string?)target["name"], (string?)target["status"], (string?)target["because"]).ShouldBe(("default", "down", "no connection"));
        target["since"].ShouldNotBeNull();
        ((int)health["open"]!).ShouldBe(3);
    }

    private static async Task<JsonNode> DocumentAsync() => JsonNode.Parse(
        await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
}
