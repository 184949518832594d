using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Compares two sessions of the same patient with the same instrument.</summary>
public static class ChangeScorer
{
    /// <summary>Change of each task, then each total, for each hand. A six-task total is compared with a six-task total only.</summary>
    /// <param name="earlier">The earlier session.</param>
    /// <param name="later">The later session; its tasks and totals are the ones listed.</param>
    /// <param name="errors">Measurement errors the site took from publications; without one that fits there is no verdict.</param>
    /// <exception cref="ArgumentException"><see cref="Comparable"/> is false.</exception>
    public static ImmutableArray<SessionChange> Compare(
        ScoredSession earlier, ScoredSession later, IReadOnlyCollection<MeasurementError> errors)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        ArgumentNullException.ThrowIfNull(errors);
        if (!Comparable(earlier.Session, later.Session))
        {
            throw new ArgumentException(
                "Only sessions of one patient with one version of one instrument, the earlier first, can be compared.", nameof(later));
        }

        var judge = new ChangeJudge(earlier.Session, later.Session, errors);
        // Hands are compared, not roles: a change of dominance changes the norm, not the time.
        return
        [
            .. later.Counted.OrderBy(t => t.RunOrder)
                .Select(t => judge.Judge(t.Trial.Task, t.Trial.Hand, Time(earlier, t.Trial.Task, t.Trial.Hand), Time(t))),
            .. later.Totals.Select(t => judge.Judge(
                t.TotalId, t.Hand, earlier.Totals.FirstOrDefault(e => e.TotalId == t.TotalId && e.Hand == t.Hand)?.Seconds, t.Seconds)),
        ];
    }

    /// <summary>
    /// True if <see cref="Compare"/> accepts the two: same patient identifier and birth date, same instrument and version, and the
    /// first began before the second.
    /// </summary>
    public static bool Comparable(Session earlier, Session later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        return earlier.Patient.Identifier == later.Patient.Identifier
            && earlier.Patient.BirthDate == later.Patient.BirthDate
            && earlier.Instrument == later.Instrument
            && earlier.StartedAt < later.StartedAt;
    }

    private static decimal? Time(ScoredSession session, string task, Hand hand) =>
        session.Counted.FirstOrDefault(t => t.Trial.Task == task && t.Trial.Hand == hand) is { } trial ? Time(trial) : null;

    private static decimal? Time(ScoredTrial trial) => trial.Trial.Outcome == TrialOutcome.Completed ? trial.Trial.Seconds : null;
}
