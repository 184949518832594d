using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>ledger retry and ledger hold on the command line.</summary>
public sealed class LedgerRetryTests(SubmitTests.ServedFolder served) : IClassFixture<SubmitTests.ServedFolder>
{
    private static readonly string[] Said = ["--reason", "Chart registered.", "--by", "R. Okafor"];

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Retry_ByCodeOverASpan_SpreadsThemAndHoldStopsOne()
    {
        foreach (var id in new[] { "stray-1", "stray-2", "stray-3" })
        {
            var document = JsonNode.Parse(await File.ReadAllTextAsync(
                Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
            document["sessionId"] = id;
            document["patient"]!["identifier"]!["value"] = "HHC-999999";
            (await served.RunAsync("submit", served.Folder.Write($"{id}.json", document.ToJsonString()))).Output.ShouldContain("1 held");
        }

        var retried = await served.RunAsync(["ledger", "retry", "--code", "HFB4101", "--over", "3h", .. Said]);
        var held = await served.RunAsync(["ledger", "hold", "harbour-hand-clinic/stray-3", .. Said]);

        retried.ExitCode.ShouldBe(0, retried.Error);
        retried.Output.ShouldStartWith("3 sessions are in line again");
        held.ExitCode.ShouldBe(0, held.Output + held.Error);
        var shown = JsonNode.Parse((await served.RunAsync("ledger", "show", "harbour-hand-clinic/stray-3")).Output)!;
        shown["decisions"]!.AsArray().Select(d => $"{d!["action"]} by {d["by"]}: {d["reason"]}")
            .ShouldBe(["retry by R. Okafor: Chart registered.", "hold by R. Okafor: Chart registered."]);
        var due = JsonNode.Parse((await served.RunAsync("ledger", "show", "harbour-hand-clinic/stray-2")).Output)!["entry"]!["nextAttemptAt"];
        ((DateTimeOffset)due!).ShouldBeGreaterThan(TimeProvider.System.GetUtcNow().AddMinutes(30));
        (await served.RunAsync("ledger", "list", "--code", "HFB5011")).Output.ShouldContain("stray-3");
        var one = await served.RunAsync(["ledger", "retry", "harbour-hand-clinic/stray-3", .. Said]);
        one.ExitCode.ShouldBe(0, one.Output);
    }

    [Theory]
    [InlineData("Name SITE/ID", "retry")]
    [InlineData("one or the other", "retry", "a/b", "--code", "HFB4101")]
    [InlineData("--over", "retry", "--all", "--over", "soon")]
    [InlineData("one or the other", "retry", "a/b", "--over", "1h")]
    [InlineData("SITE/ID", "hold", "nothing")]
    public async Task Command_GivenWrongly_IsRefusedWithTheWord(string word, params string[] arguments)
    {
        var run = await served.RunAsync(["ledger", .. arguments, .. Said]);

        run.ExitCode.ShouldBe(2, run.Output);
        run.Error.ShouldContain(word);
    }

    [Fact]
    public async Task Retry_WithoutReasonAndName_IsRefused()
    {
        var run = await served.RunAsync("ledger", "retry", "--all");

        run.ExitCode.ShouldBe(2, run.Output);
        run.Error.ShouldContain("--reason");
        run.Error.ShouldContain("--by");
    }
}
