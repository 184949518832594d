using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>An attempt that was repeated at the same sitting. It has a code of its own and no norm, and is no result of the report, so that nobody charts it by mistake.</summary>
internal static class UncountedAttemptMapper
{
    public static Observation Map(SessionContext context, ScoredTrial scored)
    {
        var trial = scored.Trial;
        var observation = ObservationFrame.Create(
            context, Canonicals.UncountedAttempt, IdentifierSystems.Attempt, context.Keys.Attempt(scored),
            context.Words.UncountedAttempt(trial.Task, trial.Hand),
            AttemptElements.Began(context, trial));
        AttemptElements.AddTo(observation, context, scored);
        observation.Extension.Add(new Extension(Extensions.CountedTrial, context.Trial(trial.Task, trial.Hand)));
        AttemptElements.AddDepartures(observation, context, trial);
        observation.Text = AttemptNarrative.Of(context, scored);
        return observation;
    }
}
