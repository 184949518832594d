using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>What check answers to sessions that are right, in every form they can come and be answered in.</summary>
public sealed class CheckTests : IDisposable
{
    private readonly DataFolder folder = new();

    private static string Sessions => Repository.Example("sessions");

    private static string OneSession => Repository.Example("sessions", "harbour-hand-clinic", "brackwater-visit-1.json");

    private static string Ndjson => Repository.Example("backload", "harbour-hand-clinic-january.ndjson");

    private static string Csv => Repository.Example("backload", "harbour-hand-clinic-january.csv");

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Check_ExamplesAsJson_WouldSendEverySession()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", Sessions, "--format", "json");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Error.ShouldBeEmpty();
        var lines = run.JsonLines();
        lines.Count.ShouldBe(Directory.GetFiles(Sessions, "*.json", SearchOption.AllDirectories).Length);
        foreach (var line in lines)
        {
            ((bool)line["accepted"]!).ShouldBeTrue(line.ToJsonString());
            ((int)line["resources"]!["DiagnosticReport"]!).ShouldBe(1);
            // 14 trials, 2 panels, 4 totals, the handedness; repeated attempts come on top.
            ((int)line["resources"]!["Observation"]!).ShouldBeGreaterThanOrEqualTo(21);
        }
    }

    [Fact]
    public async Task Check_ExampleAsText_SaysWhatWouldBeSentWithoutProgress()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", OneSession);

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Error.ShouldBeEmpty();
        run.Output.ShouldNotContain('\r');
        run.Output.ShouldNotContain('\u001b');
        run.Output.ShouldContain("harbour-hand-clinic/HHC-003991-20260122");
        run.Output.TrimEnd().Split('\n')[^1].ShouldContain("0 refused");
        Directory.EnumerateFileSystemEntries(folder.Path).ShouldBeEmpty("check stores nothing");
    }

    [Fact]
    public async Task Check_ExampleAsOutcome_PrintsAnOperationOutcomeWithoutErrors()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", OneSession, "--format", "outcome");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        Outcome(run).Issue.ShouldAllBe(i => i.Severity != OperationOutcome.IssueSeverity.Error && i.Severity != OperationOutcome.IssueSeverity.Fatal);
    }

    [Fact]
    public async Task Check_BadExampleAsOutcome_CarriesCodeSentenceRemedyAndPlace()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", Repository.Example("bad", "seconds-negative.json"), "--format", "outcome");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        var expected = (await File.ReadAllLinesAsync(Repository.Example("bad", "seconds-negative.expected.txt"), TestContext.Current.CancellationToken));
        var issue = Outcome(run).Issue.Where(i => i.Severity == OperationOutcome.IssueSeverity.Error).ShouldHaveSingleItem();
        var details = issue.Details.ShouldNotBeNull();
        details.Coding.ShouldHaveSingleItem().Code.ShouldBe(expected[0]);
        issue.Expression.ShouldBe([expected[1]]);
        expected[2].ShouldStartWith(details.Text!);
        issue.Diagnostics.ShouldNotBeNull().ShouldContain(expected[2][(details.Text!.Length + 1)..]);
    }

    [Fact]
    public async Task Check_StandardInput_TellsJsonNdjsonAndCsvApart()
    {
        foreach (var (file, sessions) in new[] { (OneSession, 1), (Ndjson, 2), (Csv, 2) })
        {
            var input = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
            var run = await CommandRun.StartAsync(folder.Path, input, "check", "-", "--format", "json");

            run.ExitCode.ShouldBe(0, file + run.Output + run.Error);
            run.JsonLines().Count.ShouldBe(sessions, file);
            run.JsonLines().ShouldAllBe(line => (string?)line["source"] == "stdin");
        }
    }

    [Fact]
    public async Task Check_BackloadFolder_ReadsEveryFileInIt()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", Repository.Example("backload"), "--format", "json");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.JsonLines().Select(l => Path.GetFileName((string?)l["source"])).Distinct().Count().ShouldBe(3);
    }

    [Theory]
    [InlineData("--frmat")]
    [InlineData("--dry-run")]
    public async Task Check_UnknownOption_IsUsage(string option)
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", OneSession, option, "json");

        run.ExitCode.ShouldBe(2, run.Output + run.Error);
        run.Error.ShouldContain(option);
        run.Output.ShouldBeEmpty();
    }

    [Fact]
    public async Task Check_NoPathOrUnknownFormatOrCommand_IsUsage()
    {
        foreach (string[] words in new[] { (string[])["check"], ["check", OneSession, "--format", "xml"], ["chekc"], [] })
        {
            var run = await CommandRun.StartAsync(folder.Path, words);

            run.ExitCode.ShouldBe(2, $"{string.Join(' ', words)}: {run.Output}{run.Error}");
            run.Error.ShouldNotBeEmpty();
        }
    }

    [Fact]
    public async Task Check_MissingFile_IsEnvironmentBeforeAnythingIsChecked()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", "no-such-file.json", OneSession, "--format", "json");

        run.ExitCode.ShouldBe(3, run.Output + run.Error);
        (run.Output + run.Error).ShouldContain("no-such-file.json");
        run.Output.ShouldBeEmpty();
    }

    [Fact]
    public async Task Check_MissingSettingsFile_IsEnvironmentAndNamesIt()
    {
        var run = await CommandRun.StartAsync(folder.Path, "check", OneSession, "--config", "absent.json");

        run.ExitCode.ShouldBe(3, run.Output + run.Error);
        run.Error.ShouldContain("absent.json");
    }

    private static OperationOutcome Outcome(CommandRun run) =>
        FhirAnswer.Parse<OperationOutcome>(run.Output);
}
