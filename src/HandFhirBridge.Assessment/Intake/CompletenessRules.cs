using System.Text.Json;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Every task and hand is accounted for: a task that was left out says so, with a reason.</summary>
internal static class CompletenessRules
{
    public static void Check(List<TrialSection> trials, Field field, Instrument? instrument)
    {
        if (field.Element is not { ValueKind: JsonValueKind.Array } list || instrument is null)
        {
            return;
        }

        if (list.GetArrayLength() == 0)
        {
            field.Problems.Add(IntakeProblems.NoTrials, field.Path, "is empty; both hands are missing.", "[]");
            return;
        }

        var recorded = trials.Select(t => (t.Task, t.Hand)).ToHashSet();
        var missing = (from hand in Enum.GetValues<Hand>() from task in instrument.Tasks where !recorded.Contains((task.Id, hand)) select (task.Id, Hand: hand)).ToArray();

        // A trial whose task or hand cannot be read may be the one that seems to be missing: one fault, one problem.
        var unreadable = list.GetArrayLength() - trials.Count(t => t is { Task: not null, Hand: not null });
        if (missing.Length > unreadable)
        {
            Report(missing, field, instrument.Tasks.Length);
        }
    }

    private static void Report((string Task, Hand Hand)[] missing, Field field, int tasks)
    {
        foreach (var hand in missing.GroupBy(m => m.Hand))
        {
            var name = WireName.Of(hand.Key);
            if (hand.Count() == tasks)
            {
                field.Problems.Add(IntakeProblems.HandNotRecorded, field.Path, $"has no trial of the {name} hand.");
                continue;
            }

            foreach (var (task, _) in hand)
            {
                field.Problems.Add(IntakeProblems.TaskNotRecorded, field.Path, $"has no trial of {task} with the {name} hand.");
            }
        }
    }
}
