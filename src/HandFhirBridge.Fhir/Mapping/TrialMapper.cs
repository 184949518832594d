using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>A counted trial as an Observation: one code for task and hand, its seconds as entered, the norm it is compared with.</summary>
internal static class TrialMapper
{
    public static Observation Map(SessionContext context, ScoredTrial scored)
    {
        var trial = scored.Trial;
        var observation = ObservationFrame.Create(
            context, Canonicals.Trial, IdentifierSystems.Trial, context.Keys.Trial(trial.Task, trial.Hand),
            context.Words.Trial(trial.Task, trial.Hand),
            AttemptElements.Began(context, trial));
        AttemptElements.AddTo(observation, context, scored);
        observation.ReferenceRange.AddRange(scored.Norms.Select(NormRange.Map));
        AddScore(observation, scored);
        AttemptElements.AddDepartures(observation, context, trial);
        observation.Text = AttemptNarrative.Of(context, scored);
        return observation;
    }

    private static void AddScore(Observation observation, ScoredTrial scored)
    {
        if (scored.Score is not { } score)
        {
            observation.Extension.Add(new Extension(Extensions.NotJudged, new Code(WireName.Of(scored.WhyNotJudged!.Value))));
            return;
        }

        observation.Interpretation.Add(score.Judgement == Judgement.Slow
            ? Concepts.Interpretation("H", "High")
            : Concepts.Interpretation("N", "Normal"));
        observation.Component.Add(ObservationFrame.Component(ComponentCodes.ZScore, Quantities.ZScore(score.Z)));
        observation.Component.Add(ObservationFrame.Component(ComponentCodes.PercentOfNorm, Quantities.PercentOf(score.PercentOfMean)));
    }
}
