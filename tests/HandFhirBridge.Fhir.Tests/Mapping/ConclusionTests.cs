using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class ConclusionTests
{
    private const string Caution = "These results support and do not replace clinical judgement and local protocols; they are not a diagnosis.";

    [Fact]
    public void Map_PlainSession_IsSaidInFull() =>
        Conclusion(Mapped.Map(Samples.AgainstSiteNorm(Samples.Clean, "writing", 5.0m, 1.0m))).ShouldBe(
            "Seven-task timed hand-function test on 2026-06-16; right-handed, 38 years old. "
            + "Left hand (non-dominant): writing, card turning, small common objects, simulated feeding, stacking checkers, large light objects "
            + "and large heavy objects not judged: no usable norm. "
            + "Left hand, totals: seven-task total 61.30 s; six-task total 29.70 s. "
            + "Right hand (dominant): slower than the norm mean by more than 2 SD in writing (12.86 s, z 7.86); card turning, small common objects, "
            + "simulated feeding, stacking checkers, large light objects and large heavy objects not judged: no usable norm. "
            + "Right hand, totals: seven-task total 41.29 s; six-task total 28.43 s. "
            + "Norms: site-set version 3; evidence: entered twice by the site. "
            + $"No departures from the standard were noted. {Caution}");

    [Theory]
    [InlineData(TrialOutcome.Unable, "No pinch.", "writing not completed, unable: No pinch.")]
    [InlineData(TrialOutcome.Declined, null, "writing not completed, declined.")]
    [InlineData(TrialOutcome.NotGiven, "Light use only", "writing not completed, not given: Light use only.")]
    [InlineData(TrialOutcome.Void, "Dropped stopwatch", "writing not completed, void: Dropped stopwatch.")]
    public void Map_NotCompleted_SaysWhyAndThatThereIsNoTotal(TrialOutcome outcome, string? reason, string sentence)
    {
        var conclusion = Conclusion(Mapped.Map(Samples.Without("writing", Hand.Left, outcome, reason)));
        conclusion.ShouldContain(sentence);
        conclusion.ShouldContain("Left hand, totals: no seven-task total, as writing not completed; six-task total 29.70 s.");
    }

    [Fact]
    public void Map_Stopped_IsSaidAsABound() =>
        Conclusion(Mapped.Map(Samples.Stopped("writing", Hand.Right))).ShouldContain("writing not completed, more than 120 s (stopped at the cap).");

    [Fact]
    public void Map_Departures_AreNamed()
    {
        var session = Samples.Clean.With("card-turning", Hand.Left, t => t with { Departures = ["item-dropped"] }) with
        {
            // 30 in is the standard; 27 in is outside its tolerance of 1 in (common practice, no source).
            Setup = Samples.Clean.Setup with
            {
                TemplateBoard = true, Glasses = Glasses.NeededNotWorn, TableHeight = new(27m, LengthUnit.Inch), ItemsReplaced = [new("coin", "a button")],
            },
            Trials = [.. Samples.Clean.With("card-turning", Hand.Left, t => t with { Departures = ["item-dropped"] }).Trials.Select(t => t with { StartedAt = null }).Reverse()],
        };
        Conclusion(Mapped.Map(session)).ShouldContain(
            "Departures from the standard: trials not in the standard order; a template board lay on the table; glasses needed but not worn; "
            + "table height 27 in; small coin replaced by a button; card turning, left hand (an item was dropped).");
    }

    [Fact]
    public void Map_Precautions_AreNamedUnlessAnsweredNo()
    {
        var asked = Conclusion(Mapped.Map(Samples.Clean with
        {
            Precautions =
            [
                new("lifting-restriction", PrecautionAnswer.Yes, ["large-heavy-objects"], [Hand.Right], null),
                new("open-wound", PrecautionAnswer.NotKnown, [], [], null),
                new("unhealed-fracture", PrecautionAnswer.No, [], [], null),
            ],
        }));
        asked.ShouldContain("Precautions: lifting restriction: yes (right hand); ruled out: large heavy objects; open wound: not known.");
        asked.ShouldNotContain("fracture");
        Conclusion(Mapped.Map(Samples.Clean with { Precautions = [] })).ShouldContain("No precautions were recorded as asked.");
    }

    [Fact]
    public void Map_RepeatedAttempt_IsNamed() => Conclusion(Mapped.Map(Samples.Repeated))
        .ShouldContain("Attempts that do not count: card turning, left hand (void: Fire bell rang during the third card.).");

    [Fact]
    public void Map_SignedConclusion_StandsInPlaceOfTheDraftBetweenWhatMustBeSaid() =>
        Conclusion(Mapped.Map(Samples.Clean with { Revision = 2, Conclusion = new("Ready for light duty", Samples.Clean.EndedAt.AddMinutes(5)) })).ShouldBe(
            "DEMONSTRATION: compared with a norm from memory; not for patients. Corrected: revision 2 of this session. Ready for light duty. Signed by Ines Calderwick, occupational therapist, "
            + $"{Samples.Clean.EndedAt.AddMinutes(5):yyyy-MM-dd HH:mm zzz}. {Caution}");

    private static string Conclusion(Bundle bundle) => bundle.Only<DiagnosticReport>().Conclusion!;
}
