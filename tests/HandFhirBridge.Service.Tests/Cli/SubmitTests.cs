using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>submit and ledger beside a running service that delivers, as in a clinic.</summary>
public sealed class SubmitTests(SubmitTests.ServedFolder served) : IClassFixture<SubmitTests.ServedFolder>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string Session(string name) => Repository.Example("sessions", "harbour-hand-clinic", $"{name}.json");

    [Fact]
    public async Task Submit_SameSessionTwice_DeliversOnce()
    {
        const string key = "harbour-hand-clinic/HHC-004610-20260312";

        var first = await served.RunAsync("submit", Session("lindqvale-visit-1"));
        var second = await served.RunAsync("submit", Session("lindqvale-visit-1"));

        first.ExitCode.ShouldBe(0, first.Output + first.Error);
        first.Output.ShouldContain("1 accepted, 0 accepted before, 0 refused");
        first.Output.ShouldContain("1 delivered, 0 held, 0 failed");
        second.ExitCode.ShouldBe(0, second.Output + second.Error);
        second.Output.ShouldContain("0 accepted, 1 accepted before, 0 refused");
        foreach (var run in new[] { first, second })
        {
            run.Error.ShouldBeEmpty();
            run.Output.ShouldNotContain('\r');
        }

        (await ReportsAsync(key)).ShouldHaveSingleItem();
        var list = await served.RunAsync("ledger", "list");
        list.ExitCode.ShouldBe(0, list.Output + list.Error);
        list.Output.Split('\n').Where(l => l.StartsWith(key, StringComparison.Ordinal)).ShouldHaveSingleItem().ShouldContain("delivered");
    }

    [Fact]
    public async Task Submit_OtherContentUnderTheSameId_IsRefusedAndKeptForCorrection()
    {
        (await served.RunAsync("submit", Session("brackwater-visit-1"))).ExitCode.ShouldBe(0);
        var changed = (await File.ReadAllTextAsync(Session("brackwater-visit-1"), Cancellation)).Replace("47.3", "47.4", StringComparison.Ordinal);
        var file = served.Folder.Write("changed.json", changed);

        var run = await served.RunAsync("submit", file, "--rejects", served.Folder.File("conflicts"));

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        run.Output.ShouldContain("HFB5001");
        (await File.ReadAllTextAsync(served.Folder.File("conflicts/changed.json"), Cancellation)).ShouldBe(changed);
        (await File.ReadAllTextAsync(served.Folder.File("conflicts/changed.json.problems.txt"), Cancellation)).ShouldContain("HFB5001");
    }

    [Fact]
    public async Task Submit_BatchWithOneBadSession_DeliversTheRestAndTheCorrectedRejects()
    {
        var rejects = served.Folder.File("rejects");

        var run = await served.RunAsync("submit", Repository.Example("bad", "second-line-wrong.ndjson"), "--rejects", rejects);

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        run.Output.ShouldContain("1 refused");
        run.Output.ShouldContain("2 delivered");
        (await ReportsAsync("harbour-hand-clinic/HHC-004538-20260219")).ShouldBeEmpty();
        var rejected = Path.Combine(rejects, "second-line-wrong.ndjson");
        var lines = await File.ReadAllLinesAsync(rejected, Cancellation);
        await File.WriteAllTextAsync(rejected, lines.ShouldHaveSingleItem().Replace("\"woman\"", "\"female\"", StringComparison.Ordinal), Cancellation);
        var corrected = await served.RunAsync("submit", rejected);
        corrected.ExitCode.ShouldBe(0, corrected.Output + corrected.Error);
        (await ReportsAsync("harbour-hand-clinic/HHC-004538-20260219")).ShouldHaveSingleItem();
    }

    [Fact]
    public async Task LedgerShow_DeliveredSession_TellsAttemptsWithTheServersAnswer()
    {
        const string key = "harbour-hand-clinic/HHC-004502-20260303";
        (await served.RunAsync("submit", Session("quillfeather-visit-1"))).ExitCode.ShouldBe(0);

        var run = await served.RunAsync("ledger", "show", key);

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        var shown = JsonNode.Parse(run.Output)!;
        ((string?)shown["entry"]!["state"]).ShouldBe("delivered");
        shown["attempts"]!.AsArray().ShouldHaveSingleItem();
        run.Output.ShouldNotContain("1969-09-30", customMessage: "the ledger shows no patient data but the chart's id");
    }

    [Fact]
    public async Task LedgerShow_UnknownOrMisspelt_SaysHowToFindIt()
    {
        var unknown = await served.RunAsync("ledger", "show", "harbour-hand-clinic/none");
        var misspelt = await served.RunAsync("ledger", "show", "none");

        unknown.ExitCode.ShouldBe(1, unknown.Output + unknown.Error);
        unknown.Error.ShouldContain("ledger list");
        misspelt.ExitCode.ShouldBe(2, misspelt.Output + misspelt.Error);
        misspelt.Error.ShouldContain("SITE/ID");
    }

    [Fact]
    public async Task LedgerList_ByState_ShowsThoseAlone()
    {
        (await served.RunAsync("submit", Session("tarrowby-visit-2"))).ExitCode.ShouldBe(0);

        var delivered = await served.RunAsync("ledger", "list", "--state", "delivered");
        var held = await served.RunAsync("ledger", "list", "--state", "held");
        var wrong = await served.RunAsync("ledger", "list", "--state", "lost");

        delivered.Output.ShouldContain("harbour-hand-clinic/HHC-004417-20260414");
        held.ExitCode.ShouldBe(0, held.Error);
        held.Output.ShouldNotContain("harbour-hand-clinic/");
        wrong.ExitCode.ShouldBe(2, wrong.Output + wrong.Error);
    }

    private Task<List<JsonNode>> ReportsAsync(string key) => Clinic.SearchAsync(
        served.Service.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{key}", Cancellation);

    /// <summary>A running service, and commands run in its folder with its settings.</summary>
    public sealed class ServedFolder : IAsyncLifetime
    {
        internal DataFolder Folder { get; } = new();

        internal ServiceProcess Service { get; private set; } = null!;

        public async ValueTask InitializeAsync()
        {
            Folder.Write("handfhirbridge.json", JsonSerializer.Serialize(new { DataDirectory = Folder.Path, Demonstration = true }));
            Service = await ServiceProcess.StartAsync(Folder.Path, Cancellation);
            await Clinic.LoadPatientsAsync(Service.Record, Cancellation);
        }

        public ValueTask DisposeAsync()
        {
            Service?.Dispose();
            Folder.Dispose();
            return ValueTask.CompletedTask;
        }

        internal Task<CommandRun> RunAsync(params string[] arguments) => CommandRun.StartAsync(Folder.Path, arguments);
    }
}
