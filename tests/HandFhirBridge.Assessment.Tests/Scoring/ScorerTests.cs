using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using static HandFhirBridge.Assessment.Tests.Scoring.Sessions;

namespace HandFhirBridge.Assessment.Tests.Scoring;

public sealed class ScorerTests
{
    // PMC10308009, Table 10: one participant with spinal cord injury at C6, seven task times of one hand; sums computed from them.
    [Fact]
    public void Score_PublishedTimes_GivesBothTotalsExactly()
    {
        var scored = Score(With(Battery(Hand.Right, 28.20m, 18.70m, 34.30m, 14.10m, 15.80m, 9.70m, 49.30m)));

        Total(scored, "seven-task-total", Hand.Right).Seconds.ShouldBe(170.10m);
        Total(scored, "six-task-total", Hand.Right).Seconds.ShouldBe(141.90m);
    }

    // PMC10308009, Table 10: the same study, two heavy tasks missing. A partial sum (288.80) must not pass for a total.
    [Fact]
    public void Score_PublishedTimesWithTwoMissing_GivesNoTotalAndNamesThem()
    {
        var scored = Score(With(Battery(Hand.Right, 27.70m, 68.50m, 113.00m, 65.20m, 14.4m, null, null)));

        var total = Total(scored, "seven-task-total", Hand.Right);
        total.Seconds.ShouldBeNull();
        total.NormMean.ShouldBeNull();
        total.MissingTasks.ShouldBe(["large-light-objects", "large-heavy-objects"]);
    }

    [Fact]
    public void Score_StoppedAtCap_IsABoundAndNeverInATotal()
    {
        var scored = Score(With(Tasks.Select(t => t == "writing" ? Missing(t, Hand.Right, TrialOutcome.StoppedAtCap) : Done(t, Hand.Right, 4.0m))));

        var writing = Trial(scored, "writing");
        writing.Score.ShouldBeNull();
        writing.WhyNotJudged.ShouldBe(NoJudgement.NoTime);
        Total(scored, "seven-task-total", Hand.Right).Seconds.ShouldBeNull();
        Total(scored, "six-task-total", Hand.Right).Seconds.ShouldBe(24.0m);
    }

    // Burger DK, McCluskey A. Aust Occup Ther J 2011;58:355-363 (abstract): writing, men 60 to 69, mean 11.97 s, SD 2.62 s.
    // 11.97 + 2 x 2.62 = 17.21: exactly two SD is not beyond two SD.
    [Theory]
    [InlineData("17.21", "2.00", Judgement.WithinNorm)]
    [InlineData("17.22", "2.00", Judgement.Slow)]
    [InlineData("11.97", "0.00", Judgement.WithinNorm)]
    [InlineData("6.00", "-2.28", Judgement.WithinNorm)]
    public void Score_WritingOfAManOf65_IsJudgedOnUnroundedTimes(string seconds, string z, Judgement judgement)
    {
        var scored = Score(With([Done("writing", Hand.Right, decimal.Parse(seconds, null))], birthDate: "1961-01-01"), demonstration: false);

        var score = Trial(scored, "writing").Score!;
        score.Norm.NormSetId.ShouldBe("writing-older-adults");
        score.Z.ShouldBe(decimal.Parse(z, null));
        score.Judgement.ShouldBe(judgement);
    }

    // Mathiowetz V et al. Arch Phys Med Rehabil 1985;66:69-74, grip of the right hand, men 30 to 34 (read in a reprint): mean 121.8, SD 22.4;
    // 77.0 is z = -2.00 and 63.2 % of the mean. Only the arithmetic is checked: the unit is of no account to it.
    [Fact]
    public void Score_FiguresOfAPublishedCell_GiveItsWorkedExample()
    {
        var score = Trial(Score(With([Done("writing", Hand.Right, 77.0m)]), demonstration: false, norms: Norms(121.8m, 22.4m)), "writing").Score!;

        (score.Z, score.PercentOfMean, score.ApproximatePercentile).ShouldBe((-2.00m, 63.2m, 2.3m));
    }

    // A z of 2 stands at the 97.7th percentile in every table of the normal distribution; far out the curve says nothing.
    [Theory]
    [InlineData("14.0", "97.7")]
    [InlineData("10.0", "50.0")]
    [InlineData("599", "99.9")]
    [InlineData("0.01", "0.1")]
    public void Score_ApproximatePercentile_StaysWithinWhatACurveCanSay(string seconds, string percentile) =>
        Trial(Score(With([Done("writing", Hand.Right, decimal.Parse(seconds, null))]), demonstration: false, norms: Norms(10m, 2m)), "writing")
            .Score!.ApproximatePercentile.ShouldBe(decimal.Parse(percentile, null));

    [Fact]
    public void Score_OutsideDemonstration_NeverUsesRecalledNorms()
    {
        var scored = Score(With(Battery(Hand.Right, 12m, 4m, 6m, 6m, 3m, 3m, 3m)), demonstration: false);

        scored.Trials.ShouldAllBe(t => t.Score == null && t.Norms.IsEmpty);
        scored.Demonstration.ShouldBeFalse();
    }

    [Fact]
    public void Score_InDemonstration_MarksTheSession()
    {
        var scored = Score(With([Done("writing", Hand.Right, 12m)]));

        scored.Demonstration.ShouldBeTrue();
        Trial(scored, "writing").Score!.Norm.Cell.Evidence.ShouldBe(Evidence.Recalled);
    }

    [Theory]
    [InlineData("2006-03-02", 20, true)] // twentieth birthday on the day
    [InlineData("2006-03-03", 19, false)]
    [InlineData("1966-03-03", 59, true)]
    [InlineData("1966-03-02", 60, true)]
    [InlineData("1931-03-03", 94, true)]
    [InlineData("1931-03-02", 95, false)]
    public void Score_AgeAtTheEdgesOfTheBands_IsJudgedInsideOnly(string birthDate, int age, bool judged)
    {
        var session = With([Done("card-turning", Hand.Right, 4.0m)], birthDate: birthDate);

        session.AgeInYears.ShouldBe(age);
        var trial = Trial(Score(session), "card-turning");
        (trial.Score is not null).ShouldBe(judged);
        trial.WhyNotJudged.ShouldBe(judged ? null : age is 95 ? NoJudgement.NoNorm : NoJudgement.AgeOutsideNorms);
        trial.Score?.Norm.Cell.AgeMin.ShouldBe(age < 60 ? 20 : 60);
    }

    // The day is that of the place, not that of Greenwich: half past midnight in +02:00 is still the day before in UTC.
    [Theory]
    [InlineData("2026-03-02T00:30:00+02:00", 60)]
    [InlineData("2026-03-01T23:59:59-08:00", 59)]
    public void AgeInYears_AtMidnight_TakesTheDayOfThePlace(string startedAt, int age) =>
        (With([], birthDate: "1966-03-02") with { StartedAt = DateTimeOffset.Parse(startedAt, null) }).AgeInYears.ShouldBe(age);

    [Theory]
    [InlineData("2000-02-29", "2026-02-28", 25)]
    [InlineData("2000-02-29", "2026-03-01", 26)]
    [InlineData("2000-02-29", "2024-02-29", 24)]
    public void AgeInYears_BornOnTheLeapDay_CompletesAYearOnTheFirstOfMarch(string birthDate, string day, int age) =>
        With([], birthDate: birthDate, day: day).AgeInYears.ShouldBe(age);

    [Fact]
    public void Score_SexUnknown_ShowsBothNormsAndJudgesNone()
    {
        var trial = Trial(Score(With([Done("card-turning", Hand.Right, 40m)], SexForNorm.Unknown)), "card-turning");

        trial.Norms.Select(n => n.Cell.Sex).ShouldBe([SexForNorm.Female, SexForNorm.Male]);
        trial.Score.ShouldBeNull();
        trial.WhyNotJudged.ShouldBe(NoJudgement.SexUnknown);
    }

    [Fact]
    public void Score_SexUnknownAndOneCellEmpty_StillJudgesNone()
    {
        // Women's cell for the dominant hand is left empty in the table: the men's alone is no norm for somebody whose sex is unknown.
        var scored = Score(With([Done("stacking-checkers", Hand.Right, 40m)], SexForNorm.Unknown));

        Trial(scored, "stacking-checkers").Norms.ShouldHaveSingleItem().Cell.Sex.ShouldBe(SexForNorm.Male);
        Trial(scored, "stacking-checkers").Score.ShouldBeNull();
        Trial(scored, "stacking-checkers").WhyNotJudged.ShouldBe(NoJudgement.SexUnknown);
    }

    [Fact]
    public void Score_CellLeftEmpty_IsNotJudged()
    {
        var trial = Trial(Score(With([Done("stacking-checkers", Hand.Right, 3m)], SexForNorm.Female)), "stacking-checkers");

        trial.WhyNotJudged.ShouldBe(NoJudgement.NoNorm);
    }

    [Fact]
    public void Score_LeftHandTestedAsDominant_TakesTheDominantNormForTheLeftHand()
    {
        var session = With([Done("writing", Hand.Left, 12m)]) with
        {
            Dominance = new(Handedness.Ambidextrous, DominanceSource.Observed, 0, Hand.Left),
        };

        Trial(Score(session), "writing", Hand.Left).Score!.Norm.Cell.Role.ShouldBe(HandRole.Dominant);
    }

    [Fact]
    public void Score_AttemptThatDoesNotCount_IsKeptWithoutAScore()
    {
        var spoiled = Done("writing", Hand.Right, 50m) with { Counted = false };
        var scored = Score(With([spoiled, Done("writing", Hand.Right, 12m)]));

        scored.Trials.Select(t => (t.Attempt, t.RunOrder, t.Score is null)).ShouldBe([(1, 1, true), (2, 2, false)]);
        scored.Trials[0].Norms.ShouldBeEmpty();
    }

    [Fact]
    public void Score_MeansOfTwoNormSets_AreNeverAddedUp()
    {
        // A man of 65: writing from one set, the other tasks from another.
        var scored = Score(With(Battery(Hand.Right, 12m, 5m, 7m, 7m, 4m, 4m, 4m), birthDate: "1961-01-01"));

        Total(scored, "seven-task-total", Hand.Right).NormMean.ShouldBeNull();
        Total(scored, "six-task-total", Hand.Right).NormMean.ShouldBe(5.3m + 6.8m + 6.9m + 3.8m + 3.6m + 3.5m);
    }

    [Fact]
    public void Score_BothHandsDone_GivesNonDominantMinusDominant()
    {
        var scored = Score(With([Done("writing", Hand.Left, 30.25m), Done("writing", Hand.Right, 12.10m), Done("card-turning", Hand.Left, 5m)]));

        scored.Differences.Single(d => d.Subject == "writing").Seconds.ShouldBe(18.15m);
        scored.Differences.Single(d => d.Subject == "card-turning").Seconds.ShouldBeNull();
    }

    [Fact]
    public void Score_Order_IsDepartedOnlyWhereTrialsRanOtherwise()
    {
        Trial[] standard = [Done("writing", Hand.Left, 30m), Done("writing", Hand.Right, 12m), Done("card-turning", Hand.Left, 5m)];
        Trial[] swapped = [standard[1], standard[0], standard[2]];
        Trial[] skipped = [standard[2], standard[0], standard[1]];

        Score(With(standard)).OrderDeparted.ShouldBeFalse();
        Score(With(swapped)).OrderDeparted.ShouldBeTrue();
        Score(With(skipped)).OrderDeparted.ShouldBeTrue();
    }

    [Theory]
    [InlineData(TrialOutcome.NotGiven, false)]
    [InlineData(TrialOutcome.Declined, false)]
    [InlineData(TrialOutcome.Unable, false)]
    [InlineData(TrialOutcome.StoppedAtCap, true)]
    [InlineData(TrialOutcome.Void, true)]
    public void Score_ListedLate_DepartsFromTheOrderOnlyIfItRan(TrialOutcome outcome, bool departed) =>
        Score(With([Done("writing", Hand.Right, 12m), Missing("writing", Hand.Left, outcome)])).OrderDeparted.ShouldBe(departed);

    [Theory]
    [InlineData(TrialOutcome.StoppedAtCap)]
    [InlineData(TrialOutcome.Unable)]
    [InlineData(TrialOutcome.Declined)]
    [InlineData(TrialOutcome.NotGiven)]
    [InlineData(TrialOutcome.Void)]
    public void Score_AnyTaskNotCompleted_LeavesNoTotalOfIt(TrialOutcome outcome)
    {
        var scored = Score(With(Tasks.Select(t => t == "card-turning" ? Missing(t, Hand.Right, outcome) : Done(t, Hand.Right, 4.0m))));

        Total(scored, "seven-task-total", Hand.Right).ShouldSatisfyAllConditions(
            t => t.Seconds.ShouldBeNull(), t => t.NormMean.ShouldBeNull(), t => t.MissingTasks.ShouldBe(["card-turning"]));
        Total(scored, "six-task-total", Hand.Right).Seconds.ShouldBeNull();
        Trial(scored, "card-turning").WhyNotJudged.ShouldBe(NoJudgement.NoTime);
    }

    [Fact]
    public void Score_RepeatedTrial_CountsOnceInTheTotal()
    {
        var battery = Battery(Hand.Right, 12m, 4m, 6m, 6m, 3m, 3m, 3m).ToList();
        battery.Insert(0, Done("writing", Hand.Right, 99m) with { Counted = false });

        Total(Score(With(battery)), "seven-task-total", Hand.Right).Seconds.ShouldBe(37m);
    }

    [Fact]
    public void Score_UnknownInstrument_IsTheCallersMistake() =>
        Should.Throw<ArgumentException>(() => Score(With([]) with { Instrument = new("seven-task", "99") }));

    private static NormLibrary Norms(decimal mean, decimal sd) => new(
        [new("own", "1", "seven-task", "Own", [new("writing", HandRole.Dominant, SexForNorm.Male, 20, 94, 30, mean, sd, Evidence.SiteDoubleEntry, "see the check", null)])]);

    private static ScoredTrial Trial(ScoredSession scored, string task, Hand hand = Hand.Right) =>
        scored.Trials.Single(t => t.Trial.Task == task && t.Trial.Hand == hand);

    private static HandTotal Total(ScoredSession scored, string total, Hand hand) =>
        scored.Totals.Single(t => t.TotalId == total && t.Hand == hand);
}
