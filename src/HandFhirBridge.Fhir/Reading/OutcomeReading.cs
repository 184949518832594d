using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads how an attempt ended. Outcome, value, comparator, status, interpretation and absent reason say it several times over and must agree.</summary>
internal static class OutcomeReading
{
    /// <summary>What came of the attempt.</summary>
    /// <param name="Outcome">How it ended.</param>
    /// <param name="Seconds">Time or bound; null if there is none.</param>
    /// <param name="Reason">Why there is no time; null if not said.</param>
    public readonly record struct Result(TrialOutcome Outcome, decimal? Seconds, string? Reason);

    public static Result? Read(Observation observation, Place place)
    {
        if (Elements.Extension<Code>(observation, Extensions.Outcome, place)?.Value is not { } code
            || Elements.Member<TrialOutcome>(code, place.At($"extension('{Extensions.Outcome}').value")) is not { } outcome)
        {
            return null;
        }

        var timed = outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap;
        CheckPresence(observation, timed, code, place);
        if (!timed)
        {
            CheckReason(observation.DataAbsentReason, outcome, place.At("dataAbsentReason"));
            return new(outcome, null, observation.DataAbsentReason?.Text);
        }

        CheckBound(observation, outcome, place);
        return Elements.Number(observation.Value, Quantities.Second, place.At("value")) is { } seconds ? new(outcome, seconds, null) : null;
    }

    private static void CheckPresence(Observation observation, bool timed, string outcome, Place place)
    {
        if (!timed && observation.Value is not null)
        {
            place.At("value").Contradicts(Elements.Shown(observation.Value), $"the outcome {outcome} has no time");
        }

        if (timed && observation.DataAbsentReason is not null)
        {
            place.At("dataAbsentReason").Contradicts(Elements.Shown(observation.DataAbsentReason), $"the outcome {outcome} has a time");
        }

        if (timed == (observation.Status == ObservationStatus.Cancelled))
        {
            place.At("status").Contradicts(observation.Status?.ToString(), $"the outcome is {outcome}");
        }
    }

    private static void CheckBound(Observation observation, TrialOutcome outcome, Place place)
    {
        var bound = outcome == TrialOutcome.StoppedAtCap;
        var comparator = (observation.Value as Quantity)?.Comparator;
        if (comparator != (bound ? Quantity.QuantityComparator.GreaterThan : null))
        {
            place.At("value.comparator").Contradicts(comparator?.ToString(), bound ? "the trial was stopped at the cap" : "the trial was completed");
        }

        var offScale = observation.Interpretation.Any(i => i.Coding.Any(c => c.System == CodeSystems.Interpretation && c.Code == ">"));
        if (offScale != bound)
        {
            place.At("interpretation").Contradicts(offScale ? ">" : null, bound ? "the trial was stopped at the cap" : "the trial was completed");
        }
    }

    private static void CheckReason(CodeableConcept? reason, TrialOutcome outcome, Place place)
    {
        var (expected, _) = AttemptElements.WhyAbsent(outcome);
        if (Elements.Code(reason, CodeSystems.AbsentReason, place) is { } code && code != expected)
        {
            place.Contradicts(code, $"the outcome {WireName.Of(outcome)} has the reason {expected}");
        }
    }
}
