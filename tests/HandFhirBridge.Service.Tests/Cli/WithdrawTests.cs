using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>ledger withdraw: a session that was entered in error.</summary>
public sealed class WithdrawTests(SubmitTests.ServedFolder served) : IClassFixture<SubmitTests.ServedFolder>
{
    private const string Key = "harbour-hand-clinic/mistaken-1";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Withdraw_DeliveredSession_IsToldToTheRecordOnceAndShown()
    {
        await SubmitAsync("mistaken-1", null);

        var done = await served.RunAsync("ledger", "withdraw", Key, "--reason", "Wrong wristband.", "--by", "R. Okafor");

        done.ExitCode.ShouldBe(0, done.Error + done.Output);
        done.Output.ShouldContain("withdrawn as revision 2");
        await Clinic.DeliveredAsync(served.Service.Api, Key, Cancellation);
        var report = (await Clinic.SearchAsync(
            served.Service.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{Key}", Cancellation)).ShouldHaveSingleItem();
        ((string?)report["status"]).ShouldBe("entered-in-error");
        var shown = (await served.RunAsync("ledger", "show", Key)).Output;
        shown.ShouldContain("Wrong wristband.");
        shown.ShouldContain("Withdrawn: the record says so.");
        (await served.RunAsync("ledger", "list")).Output.ShouldContain($"{Key} revision 2  withdrawal delivered");
        var again = await served.RunAsync("ledger", "withdraw", Key, "--reason", "Again.", "--by", "R. Okafor");
        (again.ExitCode, again.Output.Contains("HFB5010", StringComparison.Ordinal)).ShouldBe((1, true), again.Output);
    }

    [Fact]
    public async Task Withdraw_HeldSession_IsTakenOutOfLine()
    {
        const string key = "harbour-hand-clinic/mistaken-2";
        await SubmitAsync("mistaken-2", "Nobody");

        var done = await served.RunAsync("ledger", "withdraw", key, "--reason", "Wrong wristband.", "--by", "R. Okafor");

        done.Output.ShouldContain("nothing is sent");
        var state = JsonNode.Parse(await served.Service.Api.GetStringAsync(new Uri($"sessions/{key}", UriKind.Relative), Cancellation))!;
        ((string?)state["state"]).ShouldBe("superseded");
        ((string?)state["withdrawn"]!["statement"]).ShouldBe("Withdrawn before anything was written to a chart; nothing is sent.");
    }

    [Theory]
    [InlineData(Key, " ", "R. Okafor", 2)]
    [InlineData(Key, "Wrong.", "", 2)]
    [InlineData("mistaken-1", "Wrong.", "R. Okafor", 2)]
    [InlineData("harbour-hand-clinic/none", "Wrong.", "R. Okafor", 1)]
    public async Task Withdraw_WithoutSessionReasonOrName_IsRefused(string session, string reason, string by, int exitCode) =>
        (await served.RunAsync("ledger", "withdraw", session, "--reason", reason, "--by", by)).ExitCode.ShouldBe(exitCode);

    private async Task SubmitAsync(string id, string? familyName)
    {
        var document = JsonNode.Parse(await File.ReadAllTextAsync(
            Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
        document["sessionId"] = id;
        document["patient"]!["familyName"] = familyName ?? (string)document["patient"]!["familyName"]!;
        await served.RunAsync("submit", served.Folder.Write($"{id}.json", document.ToJsonString()));
        if (familyName is null)
        {
            await Clinic.DeliveredAsync(served.Service.Api, $"harbour-hand-clinic/{id}", Cancellation);
        }
    }
}
