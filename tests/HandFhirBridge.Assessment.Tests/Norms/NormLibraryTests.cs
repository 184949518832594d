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
        var path = Path.Combine(Shared.Folder("norms"), file);
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
}
