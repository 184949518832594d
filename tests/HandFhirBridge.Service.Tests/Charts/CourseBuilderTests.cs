using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Charts;
using static HandFhirBridge.Service.Tests.Charts.Courses;

namespace HandFhirBridge.Service.Tests.Charts;

public sealed class CourseBuilderTests
{
    [Fact]
    public void Build_StoppedAndMissingTrials_AreWhatTheyAreAndNeverZero()
    {
        var points = Of(Scored(On(0, 10.10m)), Scored(On(30, 120m, TrialOutcome.StoppedAtCap)), Scored(On(60, null, TrialOutcome.NotGiven))).Varied().Points;

        points.Select(p => (p.Kind, p.Seconds)).ShouldBe([(PointKind.Time, 10.10m), (PointKind.Bound, 120m), (PointKind.NoTime, null)]);
        points[2].Reason.ShouldBe("splint");
        points.Skip(1).ShouldAllBe(p => p.Change == null && p.Z == null);
    }

    [Fact]
    public void Build_SessionsInAnyOrder_StandByDate()
    {
        var course = Of(Scored(On(60, 8m)), Scored(On(0, 10m)), Scored(On(7, 9m)));

        course.Sessions.Select(s => s.SessionId).ShouldBe(["S-0", "S-7", "S-60"]);
        course.Varied().Points.Select(p => p.Seconds).ShouldBe([10m, 9m, 8m]);
        course.Series.Length.ShouldBe((7 + 2) * 2);
    }

    // MDC95 = 1.96 · √2 · SEM = 2.77 s for a SEM of 1 s (Weir JP, J Strength Cond Res 2005;19:231-240; formula from memory of the paper).
    [Theory]
    [InlineData(7.24, ChangeVerdict.WithinMeasurementError)]
    [InlineData(7.22, ChangeVerdict.FasterBeyondMeasurementError)]
    [InlineData(12.78, ChangeVerdict.SlowerBeyondMeasurementError)]
    public void Build_ChangeSinceFirst_IsHeldAgainstMeasurementError(double later, ChangeVerdict expected)
    {
        var point = Of(Scored(On(0, 10m)), Scored(On(30, (decimal)later))).Varied().Points[1];

        (point.Change, point.MinimalDetectableChange, point.Verdict).ShouldBe(((decimal)later - 10m, 2.77m, expected));
    }

    [Fact]
    public void Build_TemplateBoardFromSomeSessionOn_BreaksAndBeginsAnew()
    {
        var second = On(30, 5m);
        var third = On(60, 4m);
        var points = Of(
            Scored(On(0, 10m)), Scored(second with { Setup = second.Setup with { TemplateBoard = true } }), Scored(third with { Setup = third.Setup with { TemplateBoard = true } }))
            .Varied().Points;

        points.Select(p => p.Break).ShouldBe([null, "template board used from here on", null]);
        points.Select(p => p.Change).ShouldBe([null, null, -1m]);
    }

    [Fact]
    public void Build_OtherNormSet_Breaks()
    {
        var later = Scored(On(30, 9m));
        later = later with { Trials = [.. later.Trials.Select(t => t with { Norms = [.. t.Norms.Select(n => n with { NormSetVersion = "other" })] })] };

        var why = Of(Scored(On(0, 10m)), later).Varied().Points[1].Break;

        why.ShouldNotBeNull().ShouldStartWith("norm set changed from");
        why.ShouldEndWith(" other");
    }

    [Fact]
    public void Build_HandednessFoundDifferent_BreaksBecauseTheNormIsByRole()
    {
        var later = On(30, 9m);
        later = later with { Dominance = later.Dominance with { TestedAsDominant = later.Dominance.TestedAsDominant == Hand.Left ? Hand.Right : Hand.Left } };

        Of(Scored(On(0, 10m)), Scored(later)).Varied().Points[1].Break.ShouldNotBeNull().ShouldStartWith("hand now tested as");
    }

    [Fact]
    public void Build_SessionsThatNameDifferentPatients_SaySo()
    {
        var other = On(30, 9m);

        Of(Scored(On(0, 10m)), Scored(other with { Patient = other.Patient with { BirthDate = other.Patient.BirthDate.AddYears(1) } })).SeveralPatients.ShouldBeTrue();
        Of(Scored(On(0, 10m)), Scored(other)).SeveralPatients.ShouldBeFalse();
    }

    [Fact]
    public void Build_NormsFromMemory_MarkTheWholeAsDemonstration() => Of(Scored(On(0, 10m))).Demonstration.ShouldBeTrue();

    [Fact]
    public void Build_Nothing_IsAnEmptyCourse() => (Of().Sessions.Length, Of().Series.Length).ShouldBe((0, 0));
}
