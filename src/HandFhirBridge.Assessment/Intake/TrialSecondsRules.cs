using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Seconds against outcome, stopwatch and cap. One problem per time: the first rule it breaks.</summary>
internal static class TrialSecondsRules
{
    public static void Check(List<TrialSection> trials, SetupSection setup, Instrument? instrument, ProblemList problems)
    {
        foreach (var trial in trials)
        {
            var seconds = trial.Fields.Optional("seconds");
            if (trial.Seconds is { } value && Fault(trial, value, setup, instrument) is { } fault)
            {
                problems.Add(fault.Kind, seconds.Path, $"is {seconds.Raw}{fault.Sentence}", seconds.Raw);
            }
            else if (trial.HasTime && !seconds.IsPresent)
            {
                problems.Add(IntakeProblems.SecondsMissing, seconds.Path, $"is missing; the outcome {WireName.Of(trial.Outcome!.Value)} has a time.");
            }

            CheckSource(trial, seconds.IsPresent);
        }
    }

    private static (ProblemKind Kind, string Sentence)? Fault(TrialSection trial, decimal seconds, SetupSection setup, Instrument? instrument)
    {
        if (trial.Outcome is { } outcome && !trial.HasTime)
        {
            return (IntakeProblems.SecondsNotExpected, $", but the outcome {WireName.Of(outcome)} has no time.");
        }

        if (seconds <= 0)
        {
            return (IntakeProblems.SecondsNotPositive, "; a time is above 0.");
        }

        if (seconds > instrument?.MaxSeconds)
        {
            return (IntakeProblems.SecondsAbsurd, string.Create(CultureInfo.InvariantCulture, $"; at most {instrument.MaxSeconds} seconds are possible."));
        }

        if (seconds.Scale > instrument?.MaxDecimals)
        {
            return (IntakeProblems.TooManyDecimals, $"; at most {instrument.MaxDecimals} decimals are possible.");
        }

        return setup.CapKnown ? CapFault(trial.Outcome, seconds, setup.Setup?.CapSeconds) : null;
    }

    private static (ProblemKind Kind, string Sentence)? CapFault(TrialOutcome? outcome, decimal seconds, decimal? cap) => outcome switch
    {
        TrialOutcome.StoppedAtCap when cap is null => (IntakeProblems.StoppedWithoutCap, ", stopped at a cap, but no cap was in force."),
        TrialOutcome.StoppedAtCap when seconds != cap =>
            (IntakeProblems.StoppedNotAtCap, string.Create(CultureInfo.InvariantCulture, $", but the trial was stopped at the cap of {cap} seconds.")),
        TrialOutcome.Completed when seconds > cap =>
            (IntakeProblems.CompletedAboveCap, string.Create(CultureInfo.InvariantCulture, $", above the cap in force of {cap} seconds.")),
        _ => null,
    };

    private static void CheckSource(TrialSection trial, bool secondsWritten)
    {
        var source = trial.Fields.Optional("source");
        if (trial.HasTime && secondsWritten && !source.IsPresent)
        {
            source.Problems.Add(IntakeProblems.SourceMissing, source.Path, "is missing; it says where the seconds come from.");
        }
        else if (trial is { Outcome: { } outcome, HasTime: false } && !secondsWritten && source.IsPresent)
        {
            source.Problems.Add(IntakeProblems.SourceNotExpected, source.Path, $"is {source.Raw}, but the outcome {WireName.Of(outcome)} has no time.", source.Raw);
        }
    }
}
