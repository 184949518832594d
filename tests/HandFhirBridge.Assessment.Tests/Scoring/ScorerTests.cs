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
    }

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

    private static ScoredTrial Trial(ScoredSession scored, string task, Hand hand = Hand.Right) =>
        scored.Trials.Single(t => t.Trial.Task == task && t.Trial.Hand == hand);

    private static HandTotal Total(ScoredSession scored, string total, Hand hand) =>
        scored.Totals.Single(t => t.TotalId == total && t.Hand == hand);
}
