using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;
using static HandFhirBridge.Assessment.Tests.Norms.Entries;

namespace HandFhirBridge.Assessment.Tests.Norms;

public sealed class NormEntryComparisonTests
{
    public static TheoryData<string, Func<NormEntry, NormEntry>> Faults => new()
    {
        { "HFB2007", e => e with { EnteredBy = "ANNA " } },
        { "HFB2014", e => e with { EnteredBy = " " } },
        { "HFB2014", e => e with { Title = "" } },
        { "HFB2009", e => e with { Source = "another" } },
        { "HFB2009", e => e with { Title = "another" } },
        { "HFB2009", e => e with { SetId = "another" } },
        { "HFB2015", e => e with { SetId = "seven-task-adult-1969" } },
        { "HFB2008", e => e with { Rows = [Row with { Mean = 12.6m }] } },
        { "HFB2008", e => e with { Rows = [Row with { StandardDeviation = 3.2m }] } },
        { "HFB2008", e => e with { Rows = [Row with { N = 31 }] } },
        { "HFB2008", e => e with { Rows = [Row with { N = null }] } },
        { "HFB2008", e => e with { Rows = [Row with { Sex = SexForNorm.Male }] } },
        { "HFB2008", e => e with { Rows = [Row with { Role = HandRole.NonDominant }] } },
        { "HFB2008", e => e with { Rows = [Row with { AgeMax = 60 }] } },
        { "HFB2008", e => e with { Rows = [Row with { Minimum = 8 }] } },
        { "HFB2008", e => e with { Rows = [Row, Row with { AgeMin = 60, AgeMax = 94 }] } },
        { "HFB2001", e => e with { Rows = [Row with { Task = "knitting" }] } },
        { "HFB2002", e => e with { Rows = [Row with { Mean = 0 }] } },
        { "HFB2003", e => e with { Rows = [Row with { StandardDeviation = 0 }] } },
        { "HFB2003", e => e with { Rows = [Row with { StandardDeviation = 31m }] } },
        { "HFB2004", e => e with { Rows = [Row with { AgeMin = 60 }] } },
        { "HFB2005", e => e with { Rows = [Row, Row with { AgeMin = 59, AgeMax = 94 }] } },
        { "HFB2006", e => e with { Rows = [] } },
        { "HFB2010", e => e with { Rows = [Row with { Sex = SexForNorm.Unknown }] } },
        { "HFB2016", e => e with { Rows = [Row with { N = 1 }] } },
        { "HFB2017", e => e with { Rows = [Row with { Maximum = 12.0m }] } },
    };

    [Fact]
    public void Compare_BothAgree_GivesASetThatScores()
    {
        var outcome = NormEntryComparison.Compare(By("Anna"), By("Ben") with { Rows = [Row with { Mean = 12.50m }] }, Instrument);

        outcome.Problems.ShouldBeEmpty();
        outcome.Value!.Cells.ShouldHaveSingleItem().Evidence.ShouldBe(Evidence.SiteDoubleEntry);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void Compare_OneFault_GivesNoSetAndNamesIt(string code, Func<NormEntry, NormEntry> spoil)
    {
        var outcome = NormEntryComparison.Compare(By("Anna"), spoil(By("Ben")), Instrument);

        outcome.Value.ShouldBeNull();
        outcome.Problems.ShouldContain(p => p.Code == code);
    }

    // Both may err alike, for instance by a shared misprint: what is impossible stays impossible.
    [Fact]
    public void Compare_BothErrAlike_IsStillRefused()
    {
        NormEntry Wrong(string by) => By(by) with { Rows = [Row with { StandardDeviation = 31m }] };

        NormEntryComparison.Compare(Wrong("Anna"), Wrong("Ben"), Instrument).Problems.Select(p => p.Code).ShouldBe(["HFB2003"]);
    }

    [Fact]
    public void Compare_Differences_NameCellAndBothValues()
    {
        var message = NormEntryComparison.Compare(By("Anna"), By("Ben") with { Rows = [Row with { Mean = 15.2m }] }, Instrument)
            .Problems.ShouldHaveSingleItem().Message;

        message.ShouldBe("writing, dominant hand, female, 20 to 59 years: Anna typed 12.5 (SD 3.1, n 30), Ben typed 15.2 (SD 3.1, n 30).");
    }

    [Fact]
    public void Compare_Version_FollowsFromNumbersAndCitationAlone()
    {
        string Version(Func<NormEntry, NormEntry> change) =>
            NormEntryComparison.Compare(change(By("Anna")), change(By("Ben")), Instrument).Value!.Version;
        var other = Row with { AgeMin = 60, AgeMax = 94 };
        var version = Version(e => e);

        Version(e => e with { Rows = [Row with { Mean = 12.500m }], EnteredAt = DateTimeOffset.MaxValue }).ShouldBe(version);
        Version(e => e with { Rows = [Row with { Mean = 12.6m }] }).ShouldNotBe(version);
        Version(e => e with { Source = "another" }).ShouldNotBe(version);
        Version(e => e with { Rows = [Row, other] }).ShouldBe(Version(e => e with { Rows = [other, Row] }));
    }

    [Fact]
    public void Compare_AnotherInstrument_IsTheCallersMistake() =>
        Should.Throw<ArgumentException>(() => NormEntryComparison.Compare(By("Anna"), By("Ben") with { Instrument = "other" }, Instrument));
}
