using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Norms;

public sealed class NormEntryComparisonTests
{
    private static readonly Instrument Instrument = InstrumentLibrary.Embedded.All[0];
    private static readonly NormRow Row = new("writing", HandRole.Dominant, SexForNorm.Female, 20, 59, 30, 12.5m, 3.1m);

    public static TheoryData<string, Func<NormEntry, NormEntry>> Faults => new()
    {
        { "HFB2007", e => e with { EnteredBy = "ANNA " } },
        { "HFB2009", e => e with { Source = "another" } },
        { "HFB2008", e => e with { Rows = [Row with { Mean = 12.6m }] } },
        { "HFB2008", e => e with { Rows = [Row, Row with { AgeMin = 60, AgeMax = 94 }] } },
        { "HFB2001", e => e with { Rows = [Row with { Task = "knitting" }] } },
        { "HFB2002", e => e with { Rows = [Row with { Mean = 0 }] } },
        { "HFB2003", e => e with { Rows = [Row with { StandardDeviation = 0 }] } },
        { "HFB2003", e => e with { Rows = [Row with { StandardDeviation = 31m }] } },
        { "HFB2004", e => e with { Rows = [Row with { AgeMin = 60 }] } },
        { "HFB2005", e => e with { Rows = [Row, Row with { AgeMin = 59, AgeMax = 94 }] } },
        { "HFB2006", e => e with { Rows = [] } },
    };

    [Fact]
    public void Compare_BothAgree_GivesASetThatScores()
    {
        var outcome = NormEntryComparison.Compare(Entry("Anna"), Entry("Ben") with { Rows = [Row with { Mean = 12.50m }] }, Instrument);

        outcome.Problems.ShouldBeEmpty();
        outcome.Value!.Cells.ShouldHaveSingleItem().Evidence.ShouldBe(Evidence.SiteDoubleEntry);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void Compare_OneFault_GivesNoSetAndNamesIt(string code, Func<NormEntry, NormEntry> spoil)
    {
        var outcome = NormEntryComparison.Compare(Entry("Anna"), spoil(Entry("Ben")), Instrument);

        outcome.Value.ShouldBeNull();
        outcome.Problems.ShouldContain(p => p.Code == code);
    }

    private static NormEntry Entry(string by) =>
        new("own", "seven-task", "Own table", "invented for the check", by, DateTimeOffset.UnixEpoch, [Row]);
}
