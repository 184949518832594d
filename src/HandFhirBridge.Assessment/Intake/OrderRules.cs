using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Order in which trials ran against the instrument's. Pointed out once, at the first trial out of order.</summary>
internal static class OrderRules
{
    public static void Check(List<TrialSection> trials, Dominance? dominance, Instrument? instrument, ProblemList problems)
    {
        if (dominance is null || instrument is null)
        {
            return;
        }

        (int Place, TrialSection? Trial) furthest = (-1, null);
        foreach (var trial in FirstAttempts(trials))
        {
            var role = dominance.RoleOf(trial.Hand!.Value);
            var place = (instrument.FindTask(trial.Task!)!.Order * instrument.HandOrder.Length) + instrument.HandOrder.IndexOf(role);
            if (place < furthest.Place)
            {
                problems.Add(IntakeProblems.OrderDeparted, trial.Path,
                    $"is {trial.Title}, which the standard order has before {furthest.Trial!.Title}.");
                return;
            }

            furthest = (place, trial);
        }
    }

    // Repeats come when they come; what was not tried did not run.
    private static IEnumerable<TrialSection> FirstAttempts(List<TrialSection> trials) =>
        trials.Where(t => t is { Task: not null, Hand: not null, WasTried: true }).DistinctBy(t => (t.Task, t.Hand));
}
