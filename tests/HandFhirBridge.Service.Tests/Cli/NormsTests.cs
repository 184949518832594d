using System.Text.Json;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>A clinic's own norm table: typed by two people, compared, and only then scoring. The numbers are invented.</summary>
public sealed class NormsTests : IDisposable
{
    private const string Table = """
        task,hand,sex,age_min,age_max,n,mean,sd
        writing,dominant,female,20,59,40,11.5,2.0
        writing,non-dominant,female,20,59,40,30.5,8.0
        card-turning,dominant,female,20,59,40,4.2,1.1
        """;

    private readonly DataFolder folder = new();

    public NormsTests() => folder.Write("handfhirbridge.json", JsonSerializer.Serialize(new { DataDirectory = "data" }));

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task List_Embedded_TellsEvidenceAndThatRecalledSetsServeDemonstrationOnly()
    {
        var run = await RunAsync("norms", "list");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        Line(run, "seven-task-adult-1969").ShouldContain("recalled");
        Line(run, "seven-task-adult-1969").ShouldContain("demonstration only");
        Line(run, "writing-older-adults").ShouldContain("abstract");
    }

    [Fact]
    public async Task Enter_OncePerPersonAndEqual_ScoresAfterCompare()
    {
        (await EnterAsync(Table, "A. Brindlecote")).ExitCode.ShouldBe(0);
        var alone = await RunAsync("norms", "compare", "clinic-2026");
        (await EnterAsync(Table, "T. Wexcombe")).ExitCode.ShouldBe(0);
        var both = await RunAsync("norms", "compare", "clinic-2026");

        alone.ExitCode.ShouldBe(1, alone.Output + alone.Error);
        alone.Error.ShouldContain("1 of two");
        both.ExitCode.ShouldBe(0, both.Output + both.Error);
        Line(await RunAsync("norms", "list"), "clinic-2026").ShouldContain("scores");
        // And it does score, without demonstration: a woman of 37, writing with her other hand.
        Usable().Find("seven-task", "writing", HandRole.NonDominant, SexForNorm.Female, 37, demonstration: false)!.Cell.Mean.ShouldBe(30.5m);
    }

    [Fact]
    public async Task Enter_EntriesDiffer_NamesTheCellAndDoesNotScore()
    {
        (await EnterAsync(Table, "A. Brindlecote")).ExitCode.ShouldBe(0);
        (await EnterAsync(Table.Replace("30.5", "35.0", StringComparison.Ordinal), "T. Wexcombe")).ExitCode.ShouldBe(0);

        var run = await RunAsync("norms", "compare", "clinic-2026");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        var said = run.Output + run.Error;
        foreach (var word in new[] { "HFB2", "writing", "30.5", "35.0" })
        {
            said.ShouldContain(word);
        }

        Line(await RunAsync("norms", "list"), "clinic-2026").ShouldContain("not usable");
        Usable().Find("seven-task", "writing", HandRole.NonDominant, SexForNorm.Female, 37, demonstration: false).ShouldBeNull();
    }

    [Fact]
    public async Task Enter_SamePersonTwice_StaysOneEntry()
    {
        (await EnterAsync(Table, "A. Brindlecote")).ExitCode.ShouldBe(0);
        (await EnterAsync(Table, "A. Brindlecote")).ExitCode.ShouldBe(0);

        var run = await RunAsync("norms", "compare", "clinic-2026");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        run.Error.ShouldContain("1 of two");
    }

    [Theory]
    [InlineData("11.5,2.0", "11.5,0", "sd")]
    [InlineData("11.5,2.0", "eleven,2.0", "mean")]
    [InlineData("11.5,2.0", "\"11,5\",2.0", "mean")]
    [InlineData("writing,dominant", "wrting,dominant", "task")]
    [InlineData("task,hand", "task,side", "hand")]
    public async Task Enter_ImpossibleTable_IsRefusedWithRowAndColumn(string correct, string wrong, string column)
    {
        var first = Table.IndexOf(correct, StringComparison.Ordinal);
        var run = await EnterAsync(Table[..first] + wrong + Table[(first + correct.Length)..], "A. Brindlecote");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        (run.Output + run.Error).ShouldContain("HFB2");
        (run.Output + run.Error).ShouldContain(column);
        Directory.Exists(folder.File("data/norms")).ShouldBeFalse("nothing is kept of a refused table");
    }

    [Fact]
    public async Task Enter_WithoutItsSource_IsUsage()
    {
        var run = await RunAsync("norms", "enter", folder.Write("table.csv", Table), "--set", "clinic-2026", "--title", "Clinic", "--by", "A. Brindlecote");

        run.ExitCode.ShouldBe(2, run.Output + run.Error);
        run.Error.ShouldContain("--source");
    }

    /// <summary>The norms a service in this folder scores with.</summary>
    private NormLibrary Usable() => new BridgeParts(new BridgeSettings { DataDirectory = folder.File("data") }, TimeProvider.System).Norms;

    private Task<CommandRun> EnterAsync(string table, string by) => RunAsync(
        "norms", "enter", folder.Write("table.csv", table), "--set", "clinic-2026", "--title", "Clinic adults", "--source", "Clinic's own survey, 2026", "--by", by);

    private Task<CommandRun> RunAsync(params string[] arguments) => CommandRun.StartAsync(folder.Path, arguments);

    private static string Line(CommandRun run, string set) =>
        run.Output.Split('\n').Where(l => l.StartsWith(set, StringComparison.Ordinal)).ShouldHaveSingleItem();
}
