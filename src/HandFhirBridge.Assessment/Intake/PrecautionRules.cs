using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Precautions against trials. The therapist decides; what looks unsafe is pointed out and never refused.</summary>
internal static class PrecautionRules
{
    public static void Check(List<PrecautionSection> precautions, List<TrialSection> trials, Field field, Instrument? instrument)
    {
        foreach (var trial in trials.Where(t => t.WasTried))
        {
            var causes = precautions.Where(p => trial is { Task: { } task, Hand: { } hand } && p.Excludes(task, hand)).Select(p => p.Precaution);
            if (string.Join(", ", causes) is { Length: > 0 } names)
            {
                field.Problems.Add(IntakeProblems.RuledOutTaskGiven, trial.Path,
                    $"is {trial.Title}, which was given although {names} ruled it out.");
            }
        }

        var missing = instrument?.Precautions.Select(p => p.Id).Except(precautions.Select(p => p.Precaution)).ToArray() ?? [];
        if (missing.Length > 0 && !precautions.Exists(p => p.Precaution is null))
        {
            field.Problems.Add(IntakeProblems.PrecautionsNotAsked, field.Path, $"does not record {string.Join(", ", missing)}.");
        }
    }
}
