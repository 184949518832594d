using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads the handedness, in SNOMED CT or in our own codes.</summary>
internal static class DominanceReading
{
    public static Dominance? Read(Observation observation, Place place)
    {
        var handedness = Handed(observation.Value as CodeableConcept, place.At("value"));
        var howKnown = Elements.Member<DominanceSource>(observation.Method, CodeSystems.DominanceSource, place.At("method"));
        var components = new Components(observation, place);
        var quotient = components.Value(ComponentCodes.LateralityQuotient) is { } value
            ? Elements.Number(value, Quantities.Score, place.At("component.value"))
            : null;
        var tested = components.Member<Hand>(ComponentCodes.TestedAsDominant, CodeSystems.Hand);
        return handedness is null || howKnown is null || tested is null ? null : new(handedness.Value, howKnown.Value, quotient, tested.Value);
    }

    private static Handedness? Handed(CodeableConcept? value, Place place)
    {
        if (value?.Coding.Any(c => c.System == CodeSystems.Snomed) != true)
        {
            return Elements.Member<Handedness>(value, CodeSystems.Handedness, place);
        }

        switch (Elements.Code(value, CodeSystems.Snomed, place))
        {
            case SnomedCodes.LeftHanded:
                return Handedness.Left;
            case SnomedCodes.RightHanded:
                return Handedness.Right;
            case SnomedCodes.Ambidextrous:
                return Handedness.Ambidextrous;
            default:
                place.NotUnderstood(Elements.Shown(value), "left handed, right handed or ambidextrous");
                return null;
        }
    }
}
