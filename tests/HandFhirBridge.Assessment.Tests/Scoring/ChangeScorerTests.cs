using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using static HandFhirBridge.Assessment.Tests.Scoring.Sessions;

namespace HandFhirBridge.Assessment.Tests.Scoring;

public sealed class ChangeScorerTests
{
    // Weir JP. J Strength Cond Res 2005;19:231-240 (formula from memory of the paper): MDC95 = 1.96 x sqrt(2) x SEM; SEM 2 gives 5.54.
    // Kim JK et al. Clin Orthop Relat Res 2014;472:2536-2541 use 1.65; 1.645 gives 4.65 for the same SEM.
    [Theory]
    [InlineData(95, "5.54")]
    [InlineData(90, "4.65")]
    public void MinimalDetectableChange_SemOf2_GivesThePublishedValue(int level, string expected) =>
        Error(2m, level).MinimalDetectableChange.ShouldBe(decimal.Parse(expected, null));

    // Earhart GM et al. J Neurol Phys Ther 2011;35:157-163: SD 15.7 s, ICC .88; SD x sqrt(1 - ICC) = 5.44 and MDC95 = 15.1 (computed from them).
    [Fact]
    public void SemOf_PublishedSdAndIcc_GivesSemAndThreshold()
    {
        var sem = MeasurementError.SemOf(15.7m, 0.88m);

        decimal.Round(sem, 2).ShouldBe(5.44m);
        decimal.Round(Error(sem, 95).MinimalDetectableChange, 1).ShouldBe(15.1m);
    }

    [Theory]
    [InlineData("24.46", ChangeVerdict.WithinMeasurementError)] // 5.54 faster: not beyond
    [InlineData("24.45", ChangeVerdict.FasterBeyondMeasurementError)]
    [InlineData("35.55", ChangeVerdict.SlowerBeyondMeasurementError)]
    public void Compare_AtTheThreshold_IsBeyondItOnlyWhenLarger(string later, ChangeVerdict verdict)
    {
        var change = Compare(30m, decimal.Parse(later, null), [Error(2m, 95)]);

        change.Verdict.ShouldBe(verdict);
    }

    [Fact]
    public void Compare_NoMeasurementError_GivesTheChangeAndNoVerdict()
    {
        var change = Compare(30.00m, 24.10m, []);

        change.Seconds.ShouldBe(-5.90m);
        change.Verdict.ShouldBeNull();
    }

    [Fact]
    public void Compare_StoppedAtTheCap_HasNoPlainChange()
    {
        var earlier = Score(With([Missing("writing", Hand.Right, TrialOutcome.StoppedAtCap)], day: "2026-01-05"));
        var later = Score(With([Done("writing", Hand.Right, 60m)]));

        var change = ChangeScorer.Compare(earlier, later, [Error(2m, 95)]).First(c => c.Subject == "writing");

        change.Earlier.ShouldBeNull();
        change.Seconds.ShouldBeNull();
        change.Verdict.ShouldBeNull();
    }

    [Fact]
    public void Compare_AnotherPatientOrTheWrongOrder_IsRefused()
    {
        var session = With([Done("writing", Hand.Right, 60m)], day: "2026-01-05");
        var other = session with { Patient = session.Patient with { Identifier = new("https://clinic.example/mrn", "2") }, StartedAt = session.StartedAt.AddDays(1) };

        Should.Throw<ArgumentException>(() => ChangeScorer.Compare(Score(session), Score(other), []));
        Should.Throw<ArgumentException>(() => ChangeScorer.Compare(Score(session), Score(session), []));
    }

    // Oldfield RC. Neuropsychologia 1971;9:97-113: 100 x (R - L) / (R + L); right 14, left 4 gives +55.6.
    [Fact]
    public void LateralityQuotient_PublishedFormula_GivesTheWorkedExample()
    {
        decimal.Round(LateralityQuotient.Of(14, 4)!.Value, 1).ShouldBe(55.6m);
        LateralityQuotient.Of(0, 0).ShouldBeNull();
        LateralityQuotient.Of(0, 20).ShouldBe(-100m);
    }

    private static SessionChange Compare(decimal earlier, decimal later, MeasurementError[] errors) => ChangeScorer.Compare(
        Score(With([Done("writing", Hand.Right, earlier)], day: "2026-01-05")),
        Score(With([Done("writing", Hand.Right, later)])),
        errors).First(c => c.Subject == "writing" && c.Hand == Hand.Right);

    private static MeasurementError Error(decimal sem, int level) => new("writing", null, "invented population", sem, level, "invented for the check");
}
