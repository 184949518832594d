using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Compares two sessions of the same patient with the same instrument.</summary>
public static class ChangeScorer
{
    /// <summary>Change of each task, then each total, for each hand.</summary>
    /// <exception cref="ArgumentException">The sessions are not of the same patient and instrument, or not in the order of time.</exception>
    public static ImmutableArray<SessionChange> Compare(
        ScoredSession earlier, ScoredSession later, IReadOnlyCollection<MeasurementError> errors)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        ArgumentNullException.ThrowIfNull(errors);
        if (!Comparable(earlier.Session, later.Session))
        {
            throw new ArgumentException("Only sessions of one patient with one instrument, the earlier first, can be compared.", nameof(later));
        }

        // A change of dominance changes the norm, not the time: hands are compared, not roles.
        return
        [
            .. later.Counted.OrderBy(t => t.RunOrder).Select(t => Change(
                t.Trial.Task, t.Trial.Hand, t.Role, Time(earlier, t.Trial.Task, t.Trial.Hand), Time(t), errors)),
            .. later.Totals.Select(t => Change(
                t.TotalId, t.Hand, t.Role, earlier.Totals.FirstOrDefault(e => e.TotalId == t.TotalId && e.Hand == t.Hand)?.Seconds, t.Seconds, errors)),
        ];
    }

    /// <summary>True if <see cref="Compare"/> accepts the two.</summary>
    public static bool Comparable(Session earlier, Session later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        return earlier.Patient.Identifier == later.Patient.Identifier
            && earlier.Instrument == later.Instrument
            && earlier.StartedAt < later.StartedAt;
    }

    private static SessionChange Change(
        string subject, Hand hand, HandRole role, decimal? earlier, decimal? later, IReadOnlyCollection<MeasurementError> errors)
    {
        var seconds = later - earlier;
        var error = errors.FirstOrDefault(e => e.Subject == subject && e.Role == role)
            ?? errors.FirstOrDefault(e => e.Subject == subject && e.Role is null);
        return new(subject, hand, earlier, later, seconds, error, seconds is { } change && error is not null ? Verdict(change, error) : null);
    }

    private static ChangeVerdict Verdict(decimal change, MeasurementError error) =>
        Math.Abs(change) <= error.MinimalDetectableChange
            ? ChangeVerdict.WithinMeasurementError
            : change < 0 ? ChangeVerdict.FasterBeyondMeasurementError : ChangeVerdict.SlowerBeyondMeasurementError;

    private static decimal? Time(ScoredSession session, string task, Hand hand) =>
        session.Counted.FirstOrDefault(t => t.Trial.Task == task && t.Trial.Hand == hand) is { } trial ? Time(trial) : null;

    // A trial stopped at the cap has a bound, and a bound has no difference.
    private static decimal? Time(ScoredTrial trial) => trial.Trial.Outcome == TrialOutcome.Completed ? trial.Trial.Seconds : null;
}
