using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Several attempts of one task with one hand: exactly one counts, and it is a usable one if there is any.</summary>
internal static class AttemptRules
{
    public static void Check(List<TrialSection> trials, ProblemList problems)
    {
        foreach (var attempts in trials.Where(t => t is { Task: not null, Hand: not null }).GroupBy(t => (t.Task, t.Hand)).Select(g => g.ToArray()))
        {
            if (attempts.All(t => t.Counted is not null))
            {
                CheckCounted(attempts, [.. attempts.Where(t => t.Counted == true)], problems);
            }

            if (attempts.Length > 1 && Array.Find(attempts, t => t.Outcome == TrialOutcome.NotGiven) is { } notGiven)
            {
                problems.Add(IntakeProblems.NotGivenButAttempted, notGiven.Fields.Optional("outcome").Path,
                    $"is not-given, but {JsonPath.Label(attempts.First(t => t != notGiven).Path)} is another attempt of {notGiven.Title}.", "not-given");
            }
        }
    }

    private static void CheckCounted(TrialSection[] attempts, TrialSection[] counted, ProblemList problems)
    {
        if (counted.Length == 0)
        {
            problems.Add(IntakeProblems.NoneCounted, attempts[^1].Fields.Optional("counted").Path, $"is false, so no attempt of {attempts[0].Title} counts.", "false");
        }

        foreach (var further in counted.Skip(1))
        {
            problems.Add(IntakeProblems.SeveralCounted, further.Fields.Optional("counted").Path,
                $"is true, but {JsonPath.Label(counted[0].Path)} is the counted attempt of {further.Title} already.", "true");
        }

        if (counted is [{ Outcome: TrialOutcome.Void } one] && attempts.Any(t => t.Outcome is not null and not TrialOutcome.Void and not TrialOutcome.NotGiven))
        {
            problems.Add(IntakeProblems.VoidCounted, one.Fields.Optional("counted").Path,
                $"is true, but the attempt is void and another of {one.Title} is usable.", "true");
        }
    }
}
