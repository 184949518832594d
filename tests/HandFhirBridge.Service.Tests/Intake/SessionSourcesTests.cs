using System.Text;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Service.Intake;

namespace HandFhirBridge.Service.Tests.Intake;

public sealed class SessionSourcesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("hfb-intake").FullName;

    private static string Sessions => Path.Combine(Sources.Examples, "sessions");

    private static string Visit(int number) => Path.Combine(Sessions, "harbour-hand-clinic", $"tarrowby-visit-{number}.json");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Read_Folder_GivesEveryFileOfItsSubfoldersSorted()
    {
        var items = await Sources.ReadAsync(Sessions);

        items.Count.ShouldBeGreaterThanOrEqualTo(24);
        items.ShouldAllBe(i => i.Outcome.Succeeded && i.Format == IntakeFormat.Json && i.Document.Length > 0);
        items.Select(i => i.Place.Source).ShouldBeInOrder(SortDirection.Ascending, StringComparer.Ordinal);
        items.Select(i => i.Outcome.Value!.Key).ShouldBeUnique();
    }

    [Fact]
    public async Task Read_Examples_ShowWhatTheScenarioPromises()
    {
        var sessions = (await Sources.ReadAsync(Sessions)).Select(i => i.Outcome.Value!).ToList();

        sessions.Select(s => s.Site).Distinct().Count().ShouldBe(2);
        sessions.GroupBy(s => s.Patient.Identifier).Count(g => g.Count() == 3).ShouldBeGreaterThanOrEqualTo(8);
        sessions.Select(s => s.Dominance.Handedness).Distinct().Count().ShouldBe(3);
        sessions.Select(s => s.SexForNorm).Distinct().Count().ShouldBe(3);
        sessions.Select(s => s.Setup.Glasses).Distinct().Count().ShouldBe(3);
        sessions.ShouldContain(s => s.Setup.TemplateBoard);
        sessions.ShouldContain(s => s.Setup.CapSeconds == null);
        sessions.Select(s => s.AgeInYears).Order().ShouldSatisfyAllConditions(a => a.First().ShouldBe(17), a => a.Last().ShouldBe(97));
        sessions.SelectMany(s => s.Trials).Select(t => t.Outcome).Distinct().Count().ShouldBe(6);
        sessions.SelectMany(s => s.Trials).ShouldContain(t => !t.Counted);
        sessions.SelectMany(s => s.Precautions).ShouldContain(p => p.RulesOut.Contains("large-heavy-objects"));
    }

    [Fact]
    public async Task Read_Examples_HaveOneRemark()
    {
        var remarks = (await Sources.ReadAsync(Sessions)).SelectMany(i => i.Outcome.Problems);

        remarks.Select(p => (p.Code, Path.GetFileName(p.Place!.Source))).ShouldBe([("HFB1323", "lindqvale-visit-2.json")]);
    }

    [Fact]
    public async Task Read_Backload_GoesThroughRemarkingThatNoPrecautionsAreRecorded()
    {
        var items = await Sources.ReadAsync(Path.Combine(Sources.Examples, "backload"));

        items.Count.ShouldBe(7);
        items.ShouldAllBe(i => i.Outcome.Succeeded && i.Outcome.Problems.All(p => p.Code == "HFB1424"));
    }

    [Fact]
    public async Task Read_Ndjson_PassesOverBlankLinesAndNamesTheLine()
    {
        var good = await Compact(Visit(3));
        var file = await Write("batch.ndjson", $"\uFEFF{good}\r\n\r\n{{\"schemaVersion\": \"1\"\r\n{good.Replace("20260616", "20260617", StringComparison.Ordinal)}");

        var items = await Sources.ReadAsync(file);

        items.Select(i => (i.Place.Line, i.Outcome.Succeeded)).ShouldBe([(1, true), (3, false), (4, true)]);
        items[1].Outcome.Problems.ShouldHaveSingleItem().Place.ShouldBe(new(file, 3));
        Encoding.UTF8.GetString(items[0].Document.Span).ShouldBe(good);
    }

    [Fact]
    public async Task Read_LineAboveOneMebibyte_IsRefusedAndTheNextIsRead()
    {
        var file = await Write("batch.ndjson", new string(' ', 10) + "{" + new string(' ', SessionReader.MaxDocumentBytes) + "}\n" + await Compact(Visit(3)));

        var items = await Sources.ReadAsync(file);

        items[0].Outcome.Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1001");
        items[1].Outcome.Succeeded.ShouldBeTrue();
    }

    [Fact]
    public async Task Read_FileAboveOneMebibyte_IsRefused()
    {
        var file = await Write("large.json", await File.ReadAllTextAsync(Visit(3), TestContext.Current.CancellationToken) + new string('\n', SessionReader.MaxDocumentBytes));

        (await Sources.ReadAsync(file)).ShouldHaveSingleItem().Outcome.Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1001");
    }

    [Fact]
    public async Task Read_WhatIsNotThere_SaysSoAndGoesOn()
    {
        var text = await Write("notes.txt", "hello");
        var empty = Directory.CreateDirectory(Path.Combine(_folder, "empty")).FullName;
        var blank = await Write("blank.ndjson", "\n \n");

        var items = await Sources.ReadAsync(Path.Combine(_folder, "absent.json"), text, empty, blank, Visit(3));

        items.Select(i => i.Outcome.Problems.FirstOrDefault()?.Code).ShouldBe(["HFB1501", "HFB1503", "HFB1504", "HFB1504", null]);
        items.Take(4).ShouldAllBe(i => i.Outcome.Problems[0].Place != null && i.Outcome.Value == null);
    }

    [Fact]
    public async Task Read_FailingDisk_SaysSo()
    {
        var items = await Sources.Reader.ReadAsync(["-"], new FailingStream(), TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken);

        items.ShouldHaveSingleItem().Outcome.Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1502");
    }

    [Fact]
    public async Task Read_StandardInput_TellsItsFormFromTheFirstLine()
    {
        var pretty = await File.ReadAllBytesAsync(Visit(3), TestContext.Current.CancellationToken);
        var line = Encoding.UTF8.GetBytes(await Compact(Visit(3)));
        var table = await File.ReadAllBytesAsync(Path.Combine(Sources.Examples, "backload", "alder-street-therapy-january.csv"), TestContext.Current.CancellationToken);

        (await Sources.ReadStandardInputAsync(pretty)).ShouldHaveSingleItem().Format.ShouldBe(IntakeFormat.Json);
        (await Sources.ReadStandardInputAsync([.. line, (byte)'\n', .. line])).Select(i => (i.Format, i.Place.Source)).ShouldBe([(IntakeFormat.Ndjson, "stdin"), (IntakeFormat.Ndjson, "stdin")]);
        (await Sources.ReadStandardInputAsync(table)).ShouldAllBe(i => i.Format == IntakeFormat.Csv && i.Outcome.Succeeded);
        (await Sources.ReadStandardInputAsync([])).ShouldHaveSingleItem().Outcome.Problems[0].Code.ShouldBe("HFB1003");
    }

    [Fact]
    public async Task Read_LongNdjson_KeepsMemoryFlat()
    {
        byte[] line = [(byte)'{', .. Enumerable.Repeat((byte)' ', 900_000), (byte)'}', (byte)'\n'];
        await using var stream = new RepeatingStream(line, 100);

        var (count, before) = (0, GC.GetTotalMemory(forceFullCollection: true));
        await foreach (var item in Sources.Reader.ReadAsync(["-"], stream, TestContext.Current.CancellationToken))
        {
            count++;
        }

        count.ShouldBe(100);
        (GC.GetTotalMemory(forceFullCollection: true) - before).ShouldBeLessThan(stream.Length / 4);
    }

    private static async Task<string> Compact(string file) =>
        System.Text.Json.Nodes.JsonNode.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken))!.ToJsonString();

    private async Task<string> Write(string name, string text)
    {
        var path = Path.Combine(_folder, name);
        await File.WriteAllTextAsync(path, text, TestContext.Current.CancellationToken);
        return path;
    }
}
