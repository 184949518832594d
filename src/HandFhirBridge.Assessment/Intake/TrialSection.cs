using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>One trial as far as it could be read; null stands for absent or unreadable.</summary>
internal sealed record TrialSection(ObjectFields Fields)
{
    public string? Task { get; private init; }

    public Hand? Hand { get; private init; }

    public TrialOutcome? Outcome { get; private init; }

    public decimal? Seconds { get; private init; }

    public DateTimeOffset? StartedAt { get; private init; }

    public TimeSource? Source { get; private init; }

    public bool? Counted { get; private init; }

    public ImmutableArray<string> Departures { get; private init; }

    public string? Reason { get; private init; }

    public string? Note { get; private init; }

    public string Path => Fields.Path;

    /// <summary>Task and hand in words.</summary>
    public string Title => $"{Task} with the {(Hand is { } hand ? WireName.Of(hand) : "unknown")} hand";

    /// <summary>True if the patient certainly began it.</summary>
    public bool WasTried => Outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap or TrialOutcome.Void;

    /// <summary>True if the outcome comes with seconds.</summary>
    public bool HasTime => Outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap;

    /// <summary>Trials in the order of the document. One that is no object is left out; that is noted.</summary>
    public static List<TrialSection> Read(Field field, Instrument? instrument) =>
    [
        .. field.Items()
            .Select(item => item.Object("task", "hand", "outcome", "seconds", "startedAt", "source", "counted", "departures", "reason", "note"))
            .OfType<ObjectFields>().Select(fields => One(fields, instrument)),
    ];

    /// <summary>The trial as it goes into the session; only called when no error was noted.</summary>
    public Trial Complete(DateTimeOffset sessionStart) => new(
        Task!, Hand!.Value, Outcome!.Value, Seconds,
        // The session's start stands for a trial that has none of its own; written out it would mean the same.
        StartedAt is { } started && started.EqualsExact(sessionStart) ? null : StartedAt,
        Source, Counted!.Value, Departures, Reason, Note);

    private static TrialSection One(ObjectFields fields, Instrument? instrument)
    {
        var counted = fields.Optional("counted");
        var trial = new TrialSection(fields)
        {
            Task = fields.Required("task").Task(instrument),
            Hand = fields.Required("hand").Choice<Hand>(),
            Outcome = fields.Required("outcome").Choice<TrialOutcome>(),
            Seconds = fields.Optional("seconds").Number(),
            StartedAt = fields.Optional("startedAt").Instant(),
            Source = fields.Optional("source").Choice<TimeSource>(),
            Counted = counted.IsPresent ? counted.Flag() : true,
            Departures = [.. fields.Optional("departures").Distinct(f => f.Departure(instrument))],
            Reason = fields.Optional("reason").FreeText(),
            Note = fields.Optional("note").FreeText(),
        };
        CheckOutcome(trial, instrument);
        return trial;
    }

    private static void CheckOutcome(TrialSection trial, Instrument? instrument)
    {
        if (trial.Outcome is not { } outcome)
        {
            return;
        }

        if (trial.Task is { } id && instrument?.FindTask(id) is { } task && !task.Outcomes.Contains(outcome))
        {
            trial.Fields.Problems.NotAmong(IntakeProblems.OutcomeNotPossible, trial.Fields.Optional("outcome").Path,
                WireName.Of(outcome), [.. task.Outcomes.Select(WireName.Of)]);
        }

        var reason = trial.Fields.Optional("reason");
        if (outcome is TrialOutcome.NotGiven or TrialOutcome.Void && !reason.IsPresent)
        {
            trial.Fields.Problems.Add(IntakeProblems.ReasonMissing, reason.Path, $"is missing; the outcome {WireName.Of(outcome)} needs a reason.");
        }
        else if (trial.HasTime && reason.IsPresent)
        {
            trial.Fields.Problems.Add(IntakeProblems.ReasonNotExpected, reason.Path,
                $"is given, but the outcome {WireName.Of(outcome)} has nothing to explain.", reason.Raw);
        }
    }
}
