using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>Each rung carries the same session to a FHIR server that others wrote, and what it keeps is compared with what was sent.</summary>
public sealed class PeerRungTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("TransactionOfUpdates", true, 1)]
    // The server takes at most 8 entries in a transaction with conditions: it is written singly instead.
    [InlineData("TransactionOfConditionalCreates", true, 3)]
    [InlineData("SingleWrites", true, 3)]
    [InlineData("ObservationsAndDocument", true, 4)]
    [InlineData("DocumentAlone", true, 5)]
    // Without its switch it loses trailing zeros, as every server in JavaScript does.
    [InlineData("TransactionOfUpdates", false, 1)]
    [InlineData("SingleWrites", false, 3)]
    public async Task Deliver_ByEachRung_IsThereOnceAndCompared(string best, bool keepDigits, int rung)
    {
        Assert.SkipUnless(PeerServer.Missing is null, PeerServer.Missing ?? "");
        using var folder = new DataFolder();
        using var peer = await PeerServer.StartAsync(keepDigits, Cancellation);
        using var service = await ServiceProcess.StartAsync(
            folder.Path, [("Target__BaseUrl", peer.BaseUrl.ToString()), ("Target__BestRung", best)], Cancellation);
        await Clinic.LoadPatientsAsync(peer.Http, Cancellation);
        var key = await Clinic.SubmitAsync(service.Api, await File.ReadAllTextAsync(Clinic.ExampleSessions[0], Cancellation), Cancellation);

        var state = await Clinic.DeliveredAsync(service.Api, key, Cancellation);

        var attempt = state["attempts"]!.AsArray()[^1]!;
        ((int?)attempt["rung"]).ShouldBe(rung, attempt.ToJsonString());
        ((string?)state["code"]).ShouldBe(keepDigits ? null : "HFB4020", attempt.ToJsonString());
        (await CountAsync(peer, "DiagnosticReport")).ShouldBe(rung <= 3 ? 1 : 0);
        (await CountAsync(peer, "QuestionnaireResponse")).ShouldBe(rung <= 3 ? 1 : 0);
        (await CountAsync(peer, "DocumentReference")).ShouldBe(rung >= 4 ? 1 : 0);
        var observations = await Clinic.SearchAsync(peer.Http, "Observation?_count=100", Cancellation);
        observations.Select(o => o["identifier"]!.ToJsonString()).ShouldBeUnique();
        observations.Count.ShouldBe(rung == 5 ? 0 : ExpectedObservations(await BundleAsync(service, key)));
    }

    private static int ExpectedObservations(JsonNode bundle) =>
        bundle["entry"]!.AsArray().Count(e => (string?)e!["resource"]!["resourceType"] == "Observation");

    private static async Task<JsonNode> BundleAsync(ServiceProcess service, string key) =>
        JsonNode.Parse(await service.Api.GetStringAsync(new Uri($"sessions/{key}/bundle", UriKind.Relative), Cancellation))!;

    private static async Task<int> CountAsync(PeerServer peer, string type) => (await Clinic.SearchAsync(peer.Http, type, Cancellation)).Count;
}
