using System.Text;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Intake;

namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>Tables as RFC 4180 writes them, with the separators and decimal commas that spreadsheets make of them.</summary>
public sealed class CsvSourceTests
{
    private static Task<List<IntakeItem>> Read(CsvTable table) => Sources.ReadStandardInputAsync(table.Bytes);

    [Theory]
    [InlineData(',', "\n")]
    [InlineData(';', "\r\n")]
    [InlineData('\t', "\r\n")]
    public async Task Read_AnySeparatorAndLineBreak_GivesTheSameSession(char separator, string newLine)
    {
        var items = await Read(new CsvTable("s-1", "s-2") { Separator = separator, NewLine = newLine });

        items.Select(i => (i.Place.Line, i.Outcome.Value?.SessionId)).ShouldBe([(2, "s-1"), (16, "s-2")]);
        items[0].Outcome.Value!.Trials.Length.ShouldBe(14);
        items[0].Outcome.Value!.Trials[3].Seconds!.Value.ToString(null, null).ShouldBe("4.20");
        items[0].Outcome.Value!.Setup.TemplateBoard.ShouldBeFalse();
    }

    [Fact]
    public async Task Read_ByteOrderMarkUtf16AndSeparatorLine_AreUnderstood()
    {
        var text = new CsvTable("s-1") { Separator = ';' }.ToString();

        (await Sources.ReadStandardInputAsync([0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)])).ShouldHaveSingleItem().Outcome.Succeeded.ShouldBeTrue();
        (await Sources.ReadStandardInputAsync([0xFF, 0xFE, .. Encoding.Unicode.GetBytes(text)])).ShouldHaveSingleItem().Outcome.Succeeded.ShouldBeTrue();
    }

    [Theory]
    [InlineData("12,40", "12.40")]
    [InlineData("12.40", "12.40")]
    [InlineData("12", "12")]
    public async Task Read_DecimalCommaWhereCommaDoesNotSeparate_KeepsDigits(string cell, string seconds)
    {
        var items = await Read(new CsvTable("s-1") { Separator = ';' }.With(5, "trial.seconds", cell));

        items.ShouldHaveSingleItem().Outcome.Value!.Trials[3].Seconds!.Value.ToString(null, null).ShouldBe(seconds);
    }

    [Theory]
    [InlineData(',', "trial.seconds", "\"12,40\"", "HFB1017")]
    [InlineData(';', "trial.seconds", "1.234,5", "HFB1009")]
    [InlineData(';', "trial.seconds", "012.4", "HFB1009")]
    [InlineData(';', "trial.seconds", ".5", "HFB1009")]
    [InlineData(';', "trial.seconds", " 4.2", "HFB1009")]
    [InlineData(';', "trial.seconds", "4.2 s", "HFB1009")]
    [InlineData(';', "trial.seconds", "=1+1", "HFB1009")]
    [InlineData(';', "trial.seconds", "1E1", "HFB1015")]
    [InlineData(';', "trial.seconds", "0", "HFB1306")]
    [InlineData(';', "trial.seconds", "", "HFB1304")]
    [InlineData(';', "trial.hand", "links", "HFB1010")]
    [InlineData(';', "trial.task", "", "HFB1008")]
    [InlineData(';', "trial.departures", "item-dropped|item-dropped", "HFB1014")]
    [InlineData(';', "trial.counted", "no", "HFB1009")]
    [InlineData(';', "trial.startedAt", "2026-01-13 10:05", "HFB1202")]
    public async Task Read_BadTrialCell_NamesRowAndColumn(char separator, string column, string cell, string code)
    {
        var items = await Read(new CsvTable("s-1", "s-2") { Separator = separator }.With(20, column, cell));

        items[0].Outcome.Succeeded.ShouldBeTrue();
        var problem = items[1].Outcome.Problems.Where(p => p.Severity == Assessment.Problems.Severity.Error).ShouldHaveSingleItem();
        (problem.Code, problem.Place!.Line, problem.Place.Column).ShouldBe((code, 20, column));
    }

    [Theory]
    [InlineData("sexForNorm", "", 2, "HFB1008")]
    [InlineData("patient.birthDate", "1988-02-30", 2, "HFB1203")]
    [InlineData("setup.kit.serialNumber", "K1", 2, "HFB1008")]
    [InlineData("setup.itemsReplaced.brick", "stone", 2, "HFB1405")]
    [InlineData("precautions.headache", "no", 2, "HFB1421")]
    [InlineData("precautions.open-wound", "perhaps", 2, "HFB1010")]
    [InlineData("precautions.open-wound.rulesOut", "writing|swimming", 2, "HFB1301")]
    public async Task Read_BadSessionCell_NamesFirstRowAndColumn(string column, string cell, int row, string code)
    {
        var table = new CsvTable("s-1");
        for (var i = 2; i <= 15; i++)
        {
            table.With(i, column, cell);
        }

        var problems = (await Read(table)).ShouldHaveSingleItem().Outcome.Problems.Where(p => p.Code == code).ToList();
        problems.ShouldNotBeEmpty();
        (problems[0].Place!.Line, problems[0].Place!.Column?.Split('.')[0]).ShouldBe((row, column.Split('.')[0]));
    }

    [Fact]
    public async Task Read_SessionCellsInFirstRowOnly_Suffice()
    {
        var table = new CsvTable("s-1");
        for (var row = 3; row <= 15; row++)
        {
            table.With(row, "patient.familyName", "").With(row, "startedAt", "").With(row, "setup.capSeconds", "");
        }

        (await Read(table)).ShouldHaveSingleItem().Outcome.Value!.Patient.FamilyName.ShouldBe("Tarrowby");
    }

    [Fact]
    public async Task Read_PrecautionsAndItems_ComeFromTheirColumns()
    {
        var session = (await Read(new CsvTable("s-1") { Separator = ';' }
            .With(2, "precautions.lifting-restriction", "yes").With(2, "precautions.lifting-restriction.rulesOut", "large-heavy-objects|large-light-objects")
            .With(2, "precautions.lifting-restriction.hands", "right").With(2, "setup.itemsReplaced.coin", "washer")
            .With(2, "setup.tableHeight.value", "76,2").With(2, "setup.tableHeight.unit", "cm"))).ShouldHaveSingleItem().Outcome.Value!;

        session.Precautions.ShouldHaveSingleItem().RulesOut.ShouldBe(["large-heavy-objects", "large-light-objects"]);
        session.Precautions[0].Hands.ShouldBe([Hand.Right]);
        session.Setup.ItemsReplaced.ShouldBe([new ItemReplaced("coin", "washer")]);
        session.Setup.TableHeight.ShouldBe(new Length(76.2m, LengthUnit.Centimetre));
    }

    [Fact]
    public async Task Read_BlankLines_CountAsRowsAndAreOtherwiseIgnored()
    {
        var lines = new CsvTable("s-1", "s-2").With(16, "trial.hand", "x").ToString().Split('\n');
        var text = string.Join('\n', lines.Take(15).Append("").Append("").Concat(lines.Skip(15)));

        var items = await Sources.ReadStandardInputAsync(Encoding.UTF8.GetBytes(text));

        items[1].Outcome.Problems[0].Place!.Line.ShouldBe(18);
    }

    [Fact]
    public async Task Read_HeaderWithoutRows_SaysSo() =>
        (await Sources.ReadStandardInputAsync(Encoding.UTF8.GetBytes(new CsvTable("s-1").ToString().Split('\n')[0])))
            .ShouldHaveSingleItem().Outcome.Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1504");

    [Theory]
    [InlineData(500, 1)]
    [InlineData(501, 2)]
    public async Task Read_EndlessSession_IsCut(int rows, int items)
    {
        var lines = new CsvTable("s-1").ToString().Split('\n');
        var text = string.Join('\n', Enumerable.Repeat(lines[1], rows).Prepend(lines[0]));

        var read = await Sources.ReadStandardInputAsync(Encoding.UTF8.GetBytes(text));

        read.Count.ShouldBe(items);
        read.ShouldAllBe(i => !i.Outcome.Succeeded);
    }

    [Fact]
    public async Task Read_RowAboveOneMebibyte_EndsTheTableAndKeepsWhatWasRead()
    {
        var text = new CsvTable("s-1").ToString() + new string('x', 5_000_000) + "\n";

        var items = await Sources.ReadStandardInputAsync(Encoding.UTF8.GetBytes(text));

        items[0].Outcome.Succeeded.ShouldBeTrue();
        items[1].Outcome.Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1001");
    }

    [Fact]
    public async Task Read_ColumnsOfTheDocumentation_AreAllKnown()
    {
        var page = await File.ReadAllTextAsync(Path.Combine(Sources.Examples, "..", "docs", "backload.md"), TestContext.Current.CancellationToken);
        var names = page.Split("### Columns")[1].Split("## What")[0].Split('\n').Where(l => l.StartsWith("| ", StringComparison.Ordinal))
            .SelectMany(l => l.Split('|')[1].Split('`').Where((_, i) => i % 2 == 1)).Where(n => n.Contains('.', StringComparison.Ordinal)).Distinct().ToList();
        var table = new CsvTable("s-1");
        names.ForEach(n => table.With(2, n.Replace("ITEM", "coin", StringComparison.Ordinal).Replace("PRECAUTION", "open-wound", StringComparison.Ordinal), ""));

        names.Count.ShouldBeGreaterThan(35);
        (await Read(table)).ShouldHaveSingleItem().Outcome.Problems.Select(p => p.Code).ShouldNotContain("HFB1512");
    }

    [Fact]
    public async Task Read_SecondFault_IsReportedToo()
    {
        var items = await Read(new CsvTable("s-1").With(4, "trial.hand", "x").With(9, "trial.seconds", "-1").With(11, "patient.familyName", "Tarroby"));

        items.ShouldHaveSingleItem().Outcome.Problems.Where(p => p.Severity == Assessment.Problems.Severity.Error)
            .Select(p => (p.Code, p.Place!.Line)).ShouldBe([("HFB1010", 4), ("HFB1306", 9), ("HFB1518", 11)]);
    }
}
