using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Sessions;

public sealed class WireNameTests
{
    [Fact]
    public void Of_Members_AreKebabCaseOrAsDeclared()
    {
        WireName.All<TrialOutcome>().ShouldBe(["completed", "stopped-at-cap", "unable", "declined", "not-given", "void"]);
        WireName.All<Glasses>().ShouldBe(["not-needed", "worn", "needed-not-worn"]);
        WireName.All<HandRole>().ShouldBe(["non-dominant", "dominant"]);
        WireName.All<LengthUnit>().ShouldBe(["in", "cm"]);
        WireName.All<PerformerRole>().ShouldBe(
            ["occupational-therapist", "hand-therapist", "physical-therapist", "occupational-therapy-assistant", "student-under-supervision", "other"]);
    }

    [Theory]
    [InlineData("stopped-at-cap", TrialOutcome.StoppedAtCap)]
    [InlineData("Stopped-At-Cap", null)]
    [InlineData("StoppedAtCap", null)]
    [InlineData("1", null)]
    public void Find_Name_ComparesExactly(string name, TrialOutcome? expected) => WireName.Find<TrialOutcome>(name).ShouldBe(expected);
}
