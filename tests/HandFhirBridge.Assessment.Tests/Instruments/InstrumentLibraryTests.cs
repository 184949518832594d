using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Instruments;

public sealed class InstrumentLibraryTests
{
    private static readonly Instrument Instrument = InstrumentLibrary.Embedded.Find("seven-task", "1")!;

    // Arch Phys Med Rehabil 1969;50:311-319, as two or more summaries agree: seven tasks in this order, non-dominant hand first.
    [Fact]
    public void SevenTask_Order_IsThePublishedOne()
    {
        Instrument.Tasks.Select(t => t.Id).ShouldBe(
        [
            "writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects",
        ]);
        Instrument.HandOrder.ShouldBe([HandRole.NonDominant, HandRole.Dominant]);
        Instrument.Better.ShouldBe(Direction.Lower);
    }

    // The same summaries: 24 letters, 5 cards, 6 small objects, 5 beans, 4 checkers, 5 light and 5 heavy cans.
    [Theory]
    [InlineData("writing", 24)]
    [InlineData("card-turning", 5)]
    [InlineData("small-common-objects", 6)]
    [InlineData("simulated-feeding", 5)]
    [InlineData("stacking-checkers", 4)]
    [InlineData("large-light-objects", 5)]
    [InlineData("large-heavy-objects", 5)]
    public void SevenTask_Objects_AreAsPublished(string task, int objects) =>
        Instrument.FindTask(task)!.Objects.ShouldBe(objects);

    // Items 5 in from the edge and 2 in apart: common practice, no source.
    [Fact]
    public void SevenTask_Distances_AreMarkedAsCommonPractice()
    {
        foreach (var (id, inches) in new[] { ("edge-to-items", 5m), ("between-items", 2m) })
        {
            var measure = Instrument.Room.Single(m => m.Id == id);
            measure.Inches.ShouldBe(inches);
            measure.Source.ShouldBe("common practice, no source");
        }
    }

    // A six-task total, without writing, is another quantity than the seven-task total: common practice, no source.
    [Fact]
    public void SevenTask_Totals_AreTwoQuantities() =>
        Instrument.Totals.Select(t => (t.Id, t.Tasks.Length, t.Tasks.Contains("writing")))
            .ShouldBe([("seven-task-total", 7, true), ("six-task-total", 6, false)]);

    // Chair 18 in, table 30 in; counts of materials: two or more summaries of Arch Phys Med Rehabil 1969;50:311-319 agree.
    [Theory]
    [InlineData("writing", "writing-paper", 4)]
    [InlineData("card-turning", "index-card", 5)]
    [InlineData("small-common-objects", "paper-clip", 2)]
    [InlineData("small-common-objects", "bottle-cap", 2)]
    [InlineData("small-common-objects", "coin", 2)]
    [InlineData("simulated-feeding", "kidney-bean", 5)]
    [InlineData("stacking-checkers", "checker", 4)]
    [InlineData("large-light-objects", "large-can-empty", 5)]
    [InlineData("large-heavy-objects", "large-can-filled", 5)]
    public void SevenTask_Materials_AreAsPublished(string task, string material, int count) =>
        Instrument.FindTask(task)!.Materials.Single(m => m.Id == material).Count.ShouldBe(count);

    [Fact]
    public void SevenTask_Furniture_IsAsPublished() =>
        Instrument.Room.Where(m => m.Id.EndsWith("height", StringComparison.Ordinal)).Select(m => (m.Id, m.Inches))
            .ShouldBe([("table-height", 30m), ("chair-height", 18m)]);

    // Lifting too early after surgery harms: common practice, no source. Every caution leaves the decision to people.
    [Fact]
    public void SevenTask_Precautions_LeaveTheDecisionToSurgeonAndTherapist()
    {
        Instrument.Precautions.ShouldAllBe(p => p.Caution.Contains("surgeon") && p.Caution.Contains("local protocols") && p.Caution.Contains("therapist"));
        Instrument.Precautions.ShouldAllBe(p => p.MayRuleOut.Contains("large-heavy-objects"));
    }
}
