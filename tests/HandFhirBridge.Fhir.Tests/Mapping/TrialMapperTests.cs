using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class TrialMapperTests
{
    // UCUM: the second is "s", case sensitive. R4 datatypes.html#decimal: precision is kept, 12.40 is not 12.4.
    [Theory]
    [InlineData("12.40")]
    [InlineData("0.10")]
    [InlineData("7")]
    [InlineData("100.0")]
    [InlineData("119.99")]
    public void Map_Completed_KeepsSecondsDigitForDigit(string entered)
    {
        var seconds = decimal.Parse(entered, CultureInfo.InvariantCulture);
        var bundle = Mapped.Map(Samples.Clean.With("writing", Hand.Left, t => t with { Seconds = seconds }));
        var text = FhirText.Of(bundle.Trial("writing", Hand.Left));
        text.ShouldContain($$"""
            "valueQuantity":{"value":{{entered}},"unit":"s","system":"http://unitsofmeasure.org","code":"s"}
            """);
        FhirText.Of(FhirText.Parse<Observation>(text)).ShouldBe(text);
    }

    // R4 observation.html#code and $lastn group by code: one coding, with the hand in it, that no other observation of the session has.
    [Fact]
    public void Map_AllTrials_HaveOneCodingAndNoCodeTwice()
    {
        var codes = Mapped.Map(Samples.Repeated).All<Observation>().Select(o => o.Code.Coding.Single().Code).ToList();
        codes.ShouldBeUnique();
        codes.ShouldContain("large-heavy-objects-right");
        codes.ShouldContain("card-turning-left-uncounted");
    }

    // SNOMED CT 85151006 left hand, 78791008 right hand, 85562004 hand (as compared in docs/mapping.md).
    [Theory]
    [InlineData(Hand.Left, "85151006")]
    [InlineData(Hand.Right, "78791008")]
    public void Map_BodySite_IsTheHandInSnomedOrWithLaterality(Hand hand, string concept)
    {
        var licensed = Mapped.Map(Samples.Clean).Trial("writing", hand).BodySite!;
        licensed.Coding.ShouldHaveSingleItem().ShouldSatisfyAllConditions(c => c.System.ShouldBe("http://snomed.info/sct"), c => c.Code.ShouldBe(concept));
        var unlicensed = Mapped.Map(Samples.Clean, options: Mapped.Options with { SnomedLicensed = false }).Trial("writing", hand).BodySite!;
        unlicensed.Coding.Single().Code.ShouldBe("85562004");
        unlicensed.GetExtensionValue<Code>(Extensions.Laterality)!.Value.ShouldBe(WireName.Of(hand));
    }

    // R4 valueset-observation-category (survey, exam); US Core functional-status; ICF d440 "Fine hand use" (WHO, ICF 2001).
    [Fact]
    public void Map_Categories_AreFourConceptsOfOneCodingEach() =>
        Mapped.Map(Samples.Clean).Trial("writing", Hand.Left).Category.Select(c => c.Coding.Single()).Select(c => $"{c.System}|{c.Code}").ShouldBe(
        [
            "http://terminology.hl7.org/CodeSystem/observation-category|survey",
            "http://terminology.hl7.org/CodeSystem/observation-category|exam",
            "http://hl7.org/fhir/us/core/CodeSystem/us-core-category|functional-status",
            "http://hl7.org/fhir/sid/icf|d440",
        ]);

    // R4 datatypes.html#quantity, comparator: the actual value is greater than the given value. observation.html#status: a bound is a final result.
    [Fact]
    public void Map_StoppedAtCap_IsABoundAndNeverAScore()
    {
        var trial = Mapped.Map(Samples.Stopped("writing", Hand.Right)).Trial("writing", Hand.Right);
        var value = trial.Value.ShouldBeOfType<Quantity>();
        (value.Value, value.Comparator, trial.Status).ShouldBe((120m, Quantity.QuantityComparator.GreaterThan, ObservationStatus.Final));
        trial.Interpretation.Single().Coding.Single().Code.ShouldBe(">");
        trial.Component(ComponentCodes.ZScore).ShouldBeNull();
        trial.Component(ComponentCodes.PercentOfNorm).ShouldBeNull();
        trial.GetExtensionValue<Code>(Extensions.NotJudged)!.Value.ShouldBe("no-time");
    }

    // R4 observation.html, constraint obs-6, and valueset-data-absent-reason: not-performed, asked-declined, error.
    [Theory]
    [InlineData(TrialOutcome.Unable, "not-performed", null)]
    [InlineData(TrialOutcome.Unable, "not-performed", "No pinch.")]
    [InlineData(TrialOutcome.Declined, "asked-declined", null)]
    [InlineData(TrialOutcome.NotGiven, "not-performed", "Light use only.")]
    [InlineData(TrialOutcome.Void, "error", "Dropped stopwatch.")]
    public void Map_NoTime_IsCancelledWithTheReason(TrialOutcome outcome, string reason, string? words)
    {
        var trial = Mapped.Map(Samples.Without("writing", Hand.Left, outcome, words)).Trial("writing", Hand.Left);
        trial.Status.ShouldBe(ObservationStatus.Cancelled);
        trial.Value.ShouldBeNull();
        trial.DataAbsentReason!.Coding.Single().Code.ShouldBe(reason);
        trial.DataAbsentReason.Text.ShouldBe(words);
        trial.Interpretation.ShouldBeEmpty();
        trial.GetExtensionValue<Code>(Extensions.Outcome)!.Value.ShouldBe(WireName.Of(outcome));
        trial.GetExtensionValue<Code>(Extensions.TimeSource).ShouldBeNull();
    }

    // R4 datatypes.html#dateTime: a time of day comes with an offset.
    [Fact]
    public void Map_Effective_IsTheTrialsBeginElseTheSessions()
    {
        var bundle = Mapped.Map(Samples.Clean.With("writing", Hand.Left, t => t with { StartedAt = null }));
        ((FhirDateTime)bundle.Trial("writing", Hand.Right).Effective!).Value.ShouldBe("2026-06-16T09:05:12+02:00");
        ((FhirDateTime)bundle.Trial("writing", Hand.Left).Effective!).Value.ShouldBe("2026-06-16T09:00:00+02:00");
    }

    [Fact]
    public void Map_WhatTheTherapistNoted_IsKept()
    {
        var trial = Mapped.Map(Samples.Clean.With("writing", Hand.Left, t => t with { Departures = ["item-dropped", "pain-reported"], Note = "Pen slipped." }))
            .Trial("writing", Hand.Left);
        trial.Component.Where(c => c.Code.Coding.Single().Code == ComponentCodes.Departure).Select(c => c.Value.Code()).ShouldBe(["item-dropped", "pain-reported"]);
        trial.Note.ShouldHaveSingleItem().Text.ShouldBe("Pen slipped.");
        trial.Component(ComponentCodes.HandRole)!.Value.Code().ShouldBe("non-dominant");
        trial.GetExtensionValue<PositiveInt>(Extensions.RunOrder)!.Value.ShouldBe(1);
        trial.GetExtensionValue<Code>(Extensions.TimeSource)!.Value.ShouldBe("timer");
        trial.Performer.ShouldHaveSingleItem().Display.ShouldBe("Ines Calderwick");
    }

    // An attempt that does not count must not be charted: other code, no norm, no score, no place among the results.
    [Fact]
    public void Map_UncountedAttempt_PointsToTheTrialThatCounts()
    {
        var bundle = Mapped.Map(Samples.Repeated);
        var attempt = bundle.OfCode("card-turning-left-uncounted");
        attempt.GetExtensionValue<ResourceReference>(Extensions.CountedTrial)!.Reference.ShouldBe($"urn:uuid:{bundle.Trial("card-turning", Hand.Left).Id}");
        attempt.ReferenceRange.ShouldBeEmpty();
        attempt.Component(ComponentCodes.ZScore).ShouldBeNull();
        attempt.Identifier.Single().Value.ShouldEndWith("/card-turning/left/1");
        bundle.Only<DiagnosticReport>().Result.ShouldNotContain(r => r.Reference == $"urn:uuid:{attempt.Id}");
    }
}
