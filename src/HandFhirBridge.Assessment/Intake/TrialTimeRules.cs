namespace HandFhirBridge.Assessment.Intake;

/// <summary>When trials began: within the session, and in the order in which they are listed.</summary>
internal static class TrialTimeRules
{
    public static void Check(List<TrialSection> trials, SessionTimes times, ProblemList problems)
    {
        TrialSection? last = null;
        foreach (var trial in trials.Where(t => t.StartedAt is not null))
        {
            var field = trial.Fields.Optional("startedAt");
            if (trial.StartedAt < times.StartedAt || trial.StartedAt > times.EndedAt)
            {
                problems.Add(IntakeProblems.TrialOutsideSession, field.Path, $"is {field.Raw}, outside startedAt and endedAt of the session.", field.String());
            }
            else if (trial.StartedAt < last?.StartedAt)
            {
                problems.Add(IntakeProblems.TrialsNotInOrderOfTime, field.Path,
                    $"is {field.Raw}, before {JsonPath.Label(last!.Path)}, which is listed earlier.", field.String());
            }
            else
            {
                last = trial;
            }
        }
    }
}
