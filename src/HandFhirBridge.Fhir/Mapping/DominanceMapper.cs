using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Handedness as an Observation: it decides which norm each hand is judged against.</summary>
internal static class DominanceMapper
{
    public static Observation Map(SessionContext context)
    {
        var dominance = context.Session.Dominance;
        var snomed = context.Options.SnomedLicensed;
        var question = snomed
            ? new Coding(CodeSystems.Snomed, SnomedCodes.HandednessQuestion)
            : Concepts.Coded(CodeSystems.Measure, MeasureCodes.Handedness);
        var observation = ObservationFrame.Create(
            context, Canonicals.Dominance, IdentifierSystems.Dominance, context.Keys.Session, question, context.Session.StartedAt);
        observation.Category = [Concepts.Survey()];
        observation.Value = Concepts.Concept(snomed
            ? new Coding(CodeSystems.Snomed, SnomedCodes.Of(dominance.Handedness))
            : Concepts.Coded(CodeSystems.Handedness, dominance.Handedness));
        observation.Method = Concepts.Concept(Concepts.Coded(CodeSystems.DominanceSource, dominance.HowKnown));
        if (dominance.LateralityQuotient is { } quotient)
        {
            observation.Component.Add(ObservationFrame.Component(ComponentCodes.LateralityQuotient, Quantities.LateralityQuotient(quotient)));
        }

        observation.Component.Add(ObservationFrame.Component(
            ComponentCodes.TestedAsDominant, Concepts.Concept(Concepts.Coded(CodeSystems.Hand, dominance.TestedAsDominant))));
        observation.Text = DominanceNarrative.Of(context);
        return observation;
    }
}
