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
        change.WhyNoVerdict.ShouldBe(NoVerdict.NoMeasurementError);
    }

    // 1.96 x sqrt(2) x 1.997 = 5.5353, shown as 5.54: a change of 5.54 s is beyond it all the same.
    [Theory]
    [InlineData("1.997", ChangeVerdict.FasterBeyondMeasurementError)]
    [InlineData("2", ChangeVerdict.WithinMeasurementError)]
    public void Compare_ThresholdsShownAlike_AreJudgedUnrounded(string sem, ChangeVerdict verdict)
    {
        var error = Error(decimal.Parse(sem, null), 95);

        error.MinimalDetectableChange.ShouldBe(5.54m);
        Compare(30.00m, 24.46m, [error]).Verdict.ShouldBe(verdict);
    }

    /// <summary>Errors of which none, one or several fit writing with the right, dominant hand.</summary>
    public static TheoryData<MeasurementError[], NoVerdict?, string?> Choices
    {
        get
        {
            var both = Error(2m, 95);
            var dominant = both with { Role = HandRole.Dominant, Population = "dominant hands" };
            return new()
            {
                { [both with { Subject = "card-turning" }], NoVerdict.NoMeasurementError, null },
                { [both with { Subject = "six-task-total" }], NoVerdict.NoMeasurementError, null },
                { [both with { Role = HandRole.NonDominant }], NoVerdict.NoMeasurementError, null },
                { [both with { Instrument = "nine-peg" }], NoVerdict.NoMeasurementError, null },
                { [both with { Instrument = "seven-task" }], null, both.Population },
                { [both, dominant], null, "dominant hands" },
                { [both, both], null, both.Population },
                { [both, both with { Population = "another population" }], NoVerdict.SeveralMeasurementErrors, null },
                { [both, both with { Level = 90 }], NoVerdict.SeveralMeasurementErrors, null },
                { [dominant, dominant with { Population = "another population" }, both], NoVerdict.SeveralMeasurementErrors, null },
            };
        }
    }

    [Theory]
    [MemberData(nameof(Choices))]
    public void Compare_MeasurementErrors_OnlyOneThatFitsGivesAVerdict(MeasurementError[] errors, NoVerdict? why, string? population)
    {
        var change = Compare(30m, 20m, errors);

        change.WhyNoVerdict.ShouldBe(why);
        (change.Verdict is null).ShouldBe(why is not null);
        change.Error?.Population.ShouldBe(population);
        (change.Error is null).ShouldBe(population is null);
    }

    [Fact]
    public void Compare_HandRoleChanged_LeavesOnlyErrorsForBothRoles()
    {
        var earlier = Score(With([Done("writing", Hand.Right, 30m)], day: "2026-01-05"));
        var later = Score(With([Done("writing", Hand.Right, 20m)]) with { Dominance = new(Handedness.Ambidextrous, DominanceSource.Observed, 0, Hand.Left) });
        var both = Error(2m, 95);

        ChangeScorer.Compare(earlier, later, [both with { Role = HandRole.NonDominant }])[0].WhyNoVerdict.ShouldBe(NoVerdict.NoMeasurementError);
        ChangeScorer.Compare(earlier, later, [both])[0].Verdict.ShouldBe(ChangeVerdict.FasterBeyondMeasurementError);
    }

    [Fact]
    public void Compare_TemplateBoardOnceOnly_GivesTheChangeAndNoVerdict()
    {
        var earlier = With([Done("writing", Hand.Right, 30m)], day: "2026-01-05");
        var later = Score(With([Done("writing", Hand.Right, 20m)]));

        var board = ChangeScorer.Compare(Score(earlier with { Setup = earlier.Setup with { TemplateBoard = true } }), later, [Error(2m, 95)])[0];
        var items = ChangeScorer.Compare(Score(earlier with { Setup = earlier.Setup with { ItemsReplaced = [new("pen", "pencil")] } }), later, [Error(2m, 95)])[0];

        (board.Seconds, board.Verdict, board.WhyNoVerdict).ShouldBe((-10m, null, NoVerdict.SetupDiffered));
        items.WhyNoVerdict.ShouldBe(NoVerdict.SetupDiffered);
    }

    // A six-task and a seven-task total are different quantities: common practice, no source.
    [Fact]
    public void Compare_WritingMissingOnce_ComparesTheSixTaskTotalsOnly()
    {
        var earlier = Score(With(Battery(Hand.Right, null, 5m, 7m, 7m, 4m, 4m, 4m), day: "2026-01-05"));
        var later = Score(With(Battery(Hand.Right, 12m, 4m, 6m, 6m, 4m, 4m, 4m)));

        var changes = ChangeScorer.Compare(earlier, later, []).Where(c => c.Hand == Hand.Right).ToDictionary(c => c.Subject);

        (changes["seven-task-total"].Seconds, changes["seven-task-total"].WhyNoVerdict).ShouldBe((null, NoVerdict.NoPlainTime));
        changes["six-task-total"].Seconds.ShouldBe(-3m);
    }

    [Theory]
    [InlineData(2, 80)]
    [InlineData(2, 0)]
    [InlineData(0, 95)]
    [InlineData(-1, 95)]
    public void MeasurementError_ImpossibleNumber_IsRefused(int sem, int level) =>
        Should.Throw<ArgumentOutOfRangeException>(() => Error(sem, level));

    [Theory]
    [InlineData("0", "0.9")]
    [InlineData("2", "1")]
    [InlineData("2", "-0.1")]
    public void SemOf_ImpossibleNumber_IsRefused(string sd, string icc) =>
        Should.Throw<ArgumentOutOfRangeException>(() => MeasurementError.SemOf(decimal.Parse(sd, null), decimal.Parse(icc, null)));

    [Fact]
    public void Compare_StoppedAtTheCap_HasNoPlainChange()
    {
        var earlier = Score(With([Missing("writing", Hand.Right, TrialOutcome.StoppedAtCap)], day: "2026-01-05"));
        var later = Score(With([Done("writing", Hand.Right, 60m)]));

        var change = ChangeScorer.Compare(earlier, later, [Error(2m, 95)]).First(c => c.Subject == "writing");

        change.ShouldBe(new("writing", Hand.Right, null, 60m, null, null, null, NoVerdict.NoPlainTime));
    }

    [Fact]
    public void Compare_AnotherPatientOrTheWrongOrder_IsRefused()
    {
        var session = With([Done("writing", Hand.Right, 60m)], day: "2026-01-05");
        var other = session with { Patient = session.Patient with { Identifier = new("https://clinic.example/mrn", "2") }, StartedAt = session.StartedAt.AddDays(1) };

        var otherBirth = other with { Patient = session.Patient with { BirthDate = session.Patient.BirthDate.AddDays(1) } };

        Should.Throw<ArgumentException>(() => ChangeScorer.Compare(Score(session), Score(other), []));
        Should.Throw<ArgumentException>(() => ChangeScorer.Compare(Score(session), Score(otherBirth), []));
        ChangeScorer.Comparable(session, session with { StartedAt = session.StartedAt.AddDays(1), Instrument = new("seven-task", "2") }).ShouldBeFalse();
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
