using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Norms;

public sealed class NormLibraryTests
{
    [Fact]
    public void Embedded_EveryCell_HasSourceEvidenceAndPossibleNumbers()
    {
        var instrument = InstrumentLibrary.Embedded.All[0];
        foreach (var cell in NormLibrary.Embedded.Sets.SelectMany(s => s.Cells))
        {
            cell.Source.ShouldNotBeNullOrWhiteSpace();
            cell.StandardDeviation.ShouldBeInRange(0.01m, cell.Mean);
            instrument.FindTask(cell.Task).ShouldNotBeNull();
        }
    }

    // The copy against the table it was made from (evidence and numbers cell by cell); cells left empty there do not exist here.
    [Theory]
    [InlineData("seven-task-adult-1969", "seven-task-adult-1969.recalled.csv", 49)]
    [InlineData("writing-older-adults", "writing-older-adults.csv", 4)]
    public void Embedded_Set_EqualsItsSourceTable(string set, string file, int cells)
    {
        var path = Path.Combine(Published.Folder("norms"), file);
        var rows = File.ReadAllLines(path).Skip(1).Select(l => l.Split(',')).Where(r => r[7].Length > 0).ToList();
        rows.Count.ShouldBe(cells);
        var copy = NormLibrary.Embedded.Sets.Single(s => s.Id == set).Cells;

        copy.Select(c => string.Create(null, $"{c.Task},{(c.Role == HandRole.Dominant ? "dominant" : "non-dominant")},{(c.Sex == SexForNorm.Male ? "male" : "female")},{c.AgeMin},{c.AgeMax},{c.N},{c.Mean},{c.StandardDeviation}"))
            .ShouldBe(rows.Select(r => string.Join(',', r[1..9])));
    }

    [Fact]
    public void Find_BetterEvidence_GoesFirst()
    {
        var found = NormLibrary.Embedded.Find("seven-task", "writing", HandRole.Dominant, SexForNorm.Female, 65, demonstration: true)!;

        found.Cell.Evidence.ShouldBe(Evidence.AbstractRead);
    }

    [Fact]
    public void Find_SiteSetEnteredTwice_GoesBeforeEverything()
    {
        var cell = new NormCell("writing", HandRole.Dominant, SexForNorm.Female, 20, 94, 10, 12m, 3m, Evidence.SiteDoubleEntry, "invented for the check", null);
        var library = NormLibrary.Embedded.With(new NormSet("own", "1", "seven-task", "Own", [cell]));

        library.Find("seven-task", "writing", HandRole.Dominant, SexForNorm.Female, 65, demonstration: true)!.NormSetId.ShouldBe("own");
    }

    // Sums over the source tables named in each set, taken from the tables with another program (awk).
    [Theory]
    [InlineData("seven-task-adult-1969", 49, "416.7", "112.6", Evidence.Recalled)]
    [InlineData("writing-older-adults", 4, "69.97", "21.56", Evidence.AbstractRead)]
    public void Embedded_Set_HasTheSumsOfItsSourceTable(string set, int cells, string means, string deviations, Evidence evidence)
    {
        var copy = NormLibrary.Embedded.Sets.Single(s => s.Id == set);

        copy.Cells.Length.ShouldBe(cells);
        copy.Cells.Sum(c => c.Mean).ShouldBe(decimal.Parse(means, null));
        copy.Cells.Sum(c => c.StandardDeviation).ShouldBe(decimal.Parse(deviations, null));
        copy.Cells.ShouldAllBe(c => c.Evidence == evidence);
    }

    // What is asked of a table that a site types holds for the tables that come with the product: bands apart, numbers possible.
    [Fact]
    public void Embedded_Tables_PassTheCheckOfATypedTable()
    {
        foreach (var set in NormLibrary.Embedded.Sets)
        {
            var rows = set.Cells.Select(c => new NormRow(c.Task, c.Role, c.Sex, c.AgeMin, c.AgeMax, c.N, c.Mean, c.StandardDeviation));

            NormEntryCheck.Find(Entries.By("Anna") with { Rows = [.. rows] }, Entries.Instrument).ShouldBeEmpty();
        }
    }

    [Fact]
    public void Find_OutsideDemonstration_NeverGivesARecalledCell()
    {
        foreach (var cell in NormLibrary.Embedded.Sets.SelectMany(s => s.Cells).Where(c => c.Evidence == Evidence.Recalled))
        {
            foreach (var age in new[] { cell.AgeMin, cell.AgeMax })
            {
                var found = NormLibrary.Embedded.Find("seven-task", cell.Task, cell.Role, cell.Sex, age, demonstration: false);

                (found?.Cell.Evidence ?? Evidence.AbstractRead).ShouldNotBe(Evidence.Recalled);
            }
        }
    }

    [Theory]
    [InlineData(59, false)]
    [InlineData(60, true)]
    [InlineData(69, true)]
    [InlineData(70, false)]
    [InlineData(90, true)]
    [InlineData(100, false)]
    public void Find_WritingOfOlderWomen_ExistsInItsBandsOnly(int age, bool exists) =>
        (NormLibrary.Embedded.Find("seven-task", "writing", HandRole.Dominant, SexForNorm.Female, age, demonstration: false) is not null).ShouldBe(exists);

    [Fact]
    public void Find_AmongEqualEvidence_TakesTheSetAddedLast()
    {
        var cell = new NormCell("writing", HandRole.Dominant, SexForNorm.Female, 20, 94, 10, 12m, 3m, Evidence.SiteDoubleEntry, "invented for the check", null);
        var library = NormLibrary.Embedded.With(new NormSet("first", "1", "seven-task", "First", [cell])).With(new NormSet("second", "1", "seven-task", "Second", [cell]));

        library.Find("seven-task", "writing", HandRole.Dominant, SexForNorm.Female, 30, demonstration: false)!.NormSetId.ShouldBe("second");
        library.Find("another", "writing", HandRole.Dominant, SexForNorm.Female, 30, demonstration: true).ShouldBeNull();
        library.Find("seven-task", "writing", HandRole.Dominant, SexForNorm.Unknown, 30, demonstration: true).ShouldBeNull();
    }

    [Fact]
    public void With_IdThatIsTaken_IsTheCallersMistake() =>
        Should.Throw<ArgumentException>(() => NormLibrary.Embedded.With(new NormSet("writing-older-adults", "2", "seven-task", "T", [])));
}
