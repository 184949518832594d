using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class TotalAndPanelTests
{
    // By hand from examples/sessions/harbour-hand-clinic/tarrowby-visit-3.json, left hand:
    // 4.92 + 6.42 + 7.74 + 3.82 + 3.30 + 3.50 = 29.70; with writing 31.60 it is 61.30.
    [Theory]
    [InlineData("six-task-total-left", "29.70", 6)]
    [InlineData("seven-task-total-left", "61.30", 7)]
    public void Map_AllCompleted_IsTheSumOfItsTrials(string code, string sum, int trials)
    {
        var total = Mapped.Map(Samples.Clean).OfCode(code);
        FhirText.Of(total).ShouldContain($"\"valueQuantity\":{{\"value\":{sum},\"unit\":\"s\"");
        total.DerivedFrom.Count.ShouldBe(trials);
        total.ReferenceRange.ShouldBeEmpty();
        total.DataAbsentReason.ShouldBeNull();
    }

    // R4 observation.html, constraint obs-6; never a partial sum.
    [Fact]
    public void Map_OneTrialMissing_HasNoSumAndNamesIt()
    {
        var bundle = Mapped.Map(Samples.Without("large-heavy-objects", Hand.Left, TrialOutcome.NotGiven, "Light use only."));
        foreach (var code in new[] { "six-task-total-left", "seven-task-total-left" })
        {
            var total = bundle.OfCode(code);
            total.Value.ShouldBeNull();
            total.Status.ShouldBe(ObservationStatus.Cancelled);
            total.DataAbsentReason!.Coding.Single().Code.ShouldBe("not-performed");
            total.DataAbsentReason.Text.ShouldBe("No total: large heavy objects not completed.");
        }

        bundle.OfCode("seven-task-total-right").Value.ShouldNotBeNull();
    }

    // A bound is no time: what was stopped has no place in a sum, and writing has none in the six-task total.
    [Fact]
    public void Map_WritingStopped_LeavesTheSixTaskTotalOnly()
    {
        var bundle = Mapped.Map(Samples.Stopped("writing", Hand.Left));
        bundle.OfCode("seven-task-total-left").Value.ShouldBeNull();
        ((Quantity)bundle.OfCode("six-task-total-left").Value!).Value.ShouldBe(29.70m);
    }

    // R4 observation.html, constraint obs-7 and "Grouping": a panel has members and neither value nor component.
    [Theory]
    [InlineData(Hand.Left)]
    [InlineData(Hand.Right)]
    public void Map_Panel_GroupsTrialsAndTotalsOfItsHand(Hand hand)
    {
        var bundle = Mapped.Map(Samples.Repeated);
        var side = WireName.Of(hand);
        var panel = bundle.OfCode($"panel-{side}");
        panel.Value.ShouldBeNull();
        panel.DataAbsentReason.ShouldBeNull();
        panel.Component.ShouldBeEmpty();
        var members = panel.HasMember.Select(m => bundle.Entry.Single(e => e.FullUrl == m.Reference).Resource).Cast<Observation>().ToList();
        members.Count.ShouldBe(9);
        members.Select(m => m.Code.Coding.Single().Code).ShouldAllBe(code => code!.EndsWith($"-{side}", StringComparison.Ordinal));
    }
}
