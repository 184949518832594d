using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>What a counted trial and an attempt that does not count have in common: what happened, without any norm.</summary>
internal static class AttemptElements
{
    public static void AddTo(Observation observation, SessionContext context, ScoredTrial scored)
    {
        var trial = scored.Trial;
        observation.Extension.Add(new Extension(Extensions.RunOrder, new PositiveInt(scored.RunOrder)));
        observation.Extension.Add(new Extension(Extensions.Outcome, new Code(WireName.Of(trial.Outcome))));
        if (trial.Source is { } source)
        {
            observation.Extension.Add(new Extension(Extensions.TimeSource, new Code(WireName.Of(source))));
        }

        AddResult(observation, trial);
        observation.BodySite = ObservationFrame.BodySite(context, trial.Hand);
        observation.Device = context.Kit();
        observation.DerivedFrom.Add(context.SetupResponse());
        observation.Component.Add(ObservationFrame.Component(
            ComponentCodes.HandRole, Concepts.Concept(Concepts.Coded(CodeSystems.HandRole, scored.Role))));
        if (trial.Note is { } note)
        {
            observation.Note.Add(new Annotation { Text = note });
        }
    }

    public static void AddDepartures(Observation observation, SessionContext context, Trial trial) =>
        observation.Component.AddRange(trial.Departures.Select(departure => ObservationFrame.Component(
            ComponentCodes.Departure, Concepts.Concept(context.Words.CodedDeparture(departure)))));

    /// <summary>When it began; a trial without a time of its own began with the session as far as anyone knows.</summary>
    public static DateTimeOffset Began(SessionContext context, Trial trial) => trial.StartedAt ?? context.Session.StartedAt;

    /// <summary>The reason that an outcome without a time is given as.</summary>
    public static (string Code, string Display) WhyAbsent(TrialOutcome outcome) => outcome switch
    {
        TrialOutcome.Declined => ("asked-declined", "Asked But Declined"),
        TrialOutcome.Void => ("error", "Error"),
        _ => ("not-performed", "Not Performed"),
    };

    private static void AddResult(Observation observation, Trial trial)
    {
        switch (trial.Outcome)
        {
            case TrialOutcome.Completed:
                observation.Value = Quantities.Seconds(trial.Seconds!.Value);
                break;
            case TrialOutcome.StoppedAtCap:
                var bound = Quantities.Seconds(trial.Seconds!.Value);
                bound.Comparator = Quantity.QuantityComparator.GreaterThan;
                observation.Value = bound;
                // Said twice, as a reader that ignores comparators may still show interpretations.
                observation.Interpretation.Add(Concepts.Interpretation(">", "Off scale high"));
                break;
            default:
                var (code, display) = WhyAbsent(trial.Outcome);
                ObservationFrame.Cancel(observation, Concepts.Absent(code, display, trial.Reason));
                break;
        }
    }
}
