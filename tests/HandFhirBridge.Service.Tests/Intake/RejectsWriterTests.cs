using System.Text;
using HandFhirBridge.Service.Intake;

namespace HandFhirBridge.Service.Tests.Intake;

public sealed class RejectsWriterTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("hfb-rejects").FullName;

    private string Folder => Path.Combine(_root, "rejects");

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public async Task Add_NothingRefused_CreatesNothing()
    {
        var rejects = await RejectAsync(Path.Combine(Sources.Examples, "sessions"));

        rejects.Count.ShouldBe(0);
        Directory.Exists(Folder).ShouldBeFalse();
    }

    [Fact]
    public async Task Add_BadExamples_CanBeHandedInAgainWithTheSameAnswers()
    {
        var folder = Path.Combine(Sources.Examples, "bad");
        var rejects = await RejectAsync(folder);

        var again = await Sources.ReadAsync([.. rejects.Files]);
        var before = (await Sources.ReadAsync(folder)).Where(i => !i.Outcome.Succeeded && (i.Rows is not null || !i.Document.IsEmpty)).ToList();

        // A cell that was no UTF-8 has its unreadable characters replaced, and rows that were not together are alone now.
        var same = before.Zip(again).Where(p => p.First.Outcome.Problems[0].Code is not ("HFB1002" or "HFB1517")).ToList();
        again.Count.ShouldBe(before.Count);
        same.ShouldAllBe(p => p.Second.Outcome.Problems.Select(x => x.Code).SequenceEqual(p.First.Outcome.Problems.Select(x => x.Code)));
        same.Count.ShouldBeGreaterThan(45);
    }

    [Fact]
    public async Task Add_Table_WritesAllRowsOfTheSessionWithTheProblemBesideItsRow()
    {
        var file = await Write("visits.csv", new CsvTable("s-1", "s-2") { Separator = ';' }.With(20, "trial.hand", "x").With(16, "comment", "\"a \"\"b\"\"; c\"").ToString());
        var rejects = await RejectAsync(file);

        var lines = await File.ReadAllLinesAsync(rejects.Files.ShouldHaveSingleItem(), TestContext.Current.CancellationToken);
        lines.Length.ShouldBe(15);
        lines[0].ShouldEndWith(";problem");
        lines.Skip(1).ShouldAllBe(l => l.Contains(";s-2;", StringComparison.Ordinal));
        lines[1].ShouldContain(";\"a \"\"b\"\"; c\";");
        lines[5].ShouldContain("HFB1010 trial.hand: trials[4].hand is");
        lines.Count(l => l.Contains("HFB1010", StringComparison.Ordinal)).ShouldBe(1);
    }

    [Fact]
    public async Task Add_CorrectedRejects_GoThroughWithTheirProblemColumn()
    {
        var file = await Write("visits.csv", new CsvTable("s-1", "s-2").With(20, "trial.hand", "xleft").ToString());
        var reject = (await RejectAsync(file)).Files.ShouldHaveSingleItem();
        var text = await File.ReadAllTextAsync(reject, TestContext.Current.CancellationToken);

        await File.WriteAllTextAsync(reject, text.Replace(",xleft,", ",left,", StringComparison.Ordinal), TestContext.Current.CancellationToken);

        (await Sources.ReadAsync(reject)).ShouldHaveSingleItem().Outcome.Value!.SessionId.ShouldBe("s-2");
    }

    [Fact]
    public async Task Add_RefusedAgain_ReplacesTheProblemAndOverwritesNothing()
    {
        var file = await Write("visits.csv", new CsvTable("s-1").With(4, "trial.hand", "x").ToString());
        var first = (await RejectAsync(file)).Files.ShouldHaveSingleItem();

        var second = (await RejectAsync(first)).Files.ShouldHaveSingleItem();

        second.ShouldNotBe(first);
        (await File.ReadAllTextAsync(second, TestContext.Current.CancellationToken)).ShouldBe(await File.ReadAllTextAsync(first, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Add_Ndjson_WritesTheSameLines()
    {
        var source = Path.Combine(Sources.Examples, "bad", "second-line-truncated.ndjson");
        var file = (await RejectAsync(source)).Files.ShouldHaveSingleItem();

        var line = (await File.ReadAllLinesAsync(source, TestContext.Current.CancellationToken))[1];
        (await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken)).ShouldBe(line + "\n");
        (await File.ReadAllTextAsync(file + ".problems.txt", TestContext.Current.CancellationToken)).ShouldContain("line 2: HFB1004 error");
    }

    private async Task<RejectsWriter> RejectAsync(params string[] paths)
    {
        await using var rejects = new RejectsWriter(Folder);
        foreach (var item in await Sources.ReadAsync(paths))
        {
            await rejects.AddAsync(item, TestContext.Current.CancellationToken);
        }

        return rejects;
    }

    private async Task<string> Write(string name, string text)
    {
        var path = Path.Combine(_root, name);
        await File.WriteAllTextAsync(path, text, new UTF8Encoding(false), TestContext.Current.CancellationToken);
        return path;
    }
}
