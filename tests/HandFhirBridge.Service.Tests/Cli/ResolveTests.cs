using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>ledger resolve: a person chooses the chart of a session that waits.</summary>
public sealed class ResolveTests(SubmitTests.ServedFolder served) : IClassFixture<SubmitTests.ServedFolder>
{
    private const string Key = "harbour-hand-clinic/renamed-1";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Resolve_SessionUnderAnotherName_IsDeliveredAndShowsWhoDecided()
    {
        var document = JsonNode.Parse(await File.ReadAllTextAsync(
            Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
        document["sessionId"] = "renamed-1";
        document["patient"]!["familyName"] = "Fenwick";
        var held = await served.RunAsync("submit", served.Folder.Write("renamed.json", document.ToJsonString()));
        held.Output.ShouldContain("1 held");
        var identifier = document["patient"]!["identifier"]!;
        var chart = (await Clinic.SearchAsync(served.Service.Record, $"Patient?identifier={identifier["system"]}|{identifier["value"]}", Cancellation)).ShouldHaveSingleItem();

        var resolved = await served.RunAsync(
            "ledger", "resolve", Key, "--patient", (string)chart["id"]!, "--reason", "Wristband seen; married last week.", "--by", "R. Okafor");

        resolved.ExitCode.ShouldBe(0, resolved.Error);
        await Clinic.DeliveredAsync(served.Service.Api, Key, Cancellation);
        var decision = JsonNode.Parse((await served.RunAsync("ledger", "show", Key)).Output)!["decisions"]!.AsArray().ShouldHaveSingleItem()!;
        ((string?)decision["by"]).ShouldBe("R. Okafor");
        ((string?)decision["reason"]).ShouldBe("Wristband seen; married last week.");
        var again = await served.RunAsync("ledger", "resolve", Key, "--patient", "x", "--reason", "Again.", "--by", "R. Okafor");
        again.ExitCode.ShouldBe(1, again.Output);
        again.Output.ShouldContain("held sessions only");
    }

    [Theory]
    [InlineData("Patient/1", "Seen.", "R. Okafor", "--patient")]
    [InlineData("1", " ", "R. Okafor", "--reason")]
    [InlineData("1", "Seen.", "", "--by")]
    public async Task Resolve_WithoutAProperChartReasonOrName_IsRefused(string patient, string reason, string by, string option)
    {
        var run = await served.RunAsync("ledger", "resolve", Key, "--patient", patient, "--reason", reason, "--by", by);

        run.ExitCode.ShouldBe(2, run.Output);
        run.Error.ShouldContain(option);
    }
}
