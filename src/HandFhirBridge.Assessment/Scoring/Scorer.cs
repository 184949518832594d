using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Scores sessions in exact decimals. The same session, norms and options always give the same scores.</summary>
/// <param name="instruments">Definitions.</param>
/// <param name="norms">Norms at hand.</param>
/// <param name="options">What the site decided.</param>
public sealed class Scorer(InstrumentLibrary instruments, NormLibrary norms, ScoringOptions options)
{
    private readonly TrialScorer trials = new(norms, options);

    /// <summary>Scores a session that a reader has checked.</summary>
    /// <exception cref="ArgumentException">The library has no definition of the session's instrument.</exception>
    public ScoredSession Score(Session session)
    {
        ArgumentNullException.ThrowIfNull(session);
        var instrument = instruments.Find(session.Instrument.Id, session.Instrument.Version)
            ?? throw new ArgumentException($"No definition of {session.Instrument.Id} {session.Instrument.Version}.", nameof(session));
        var scored = ScoreTrials(session);
        var counted = scored.Where(t => t.Trial.Counted).ToList();
        ImmutableArray<HandTotal> totals =
        [
            .. from total in instrument.Totals
               from hand in new[] { Hand.Left, Hand.Right }
               select TotalScorer.Sum(total, hand, session.Dominance.RoleOf(hand), counted),
        ];
        return new(session, scored, totals, Differences(instrument, counted, totals), OrderDeparted(instrument, counted));
    }

    private ImmutableArray<ScoredTrial> ScoreTrials(Session session)
    {
        var attempts = new Dictionary<(string, Hand), int>();
        var scored = ImmutableArray.CreateBuilder<ScoredTrial>(session.Trials.Length);
        foreach (var trial in session.Trials)
        {
            var attempt = attempts[(trial.Task, trial.Hand)] = attempts.GetValueOrDefault((trial.Task, trial.Hand)) + 1;
            scored.Add(trials.Score(session, trial, scored.Count + 1, attempt));
        }

        return scored.MoveToImmutable();
    }

    private static ImmutableArray<HandDifference> Differences(
        Instrument instrument, List<ScoredTrial> counted, ImmutableArray<HandTotal> totals)
    {
        return
        [
            .. instrument.Tasks.Select(task => new HandDifference(task.Id, Minus(Time(task.Id, HandRole.NonDominant), Time(task.Id, HandRole.Dominant)))),
            .. instrument.Totals.Select(total => new HandDifference(total.Id, Minus(Sum(total.Id, HandRole.NonDominant), Sum(total.Id, HandRole.Dominant)))),
        ];

        decimal? Time(string task, HandRole role) => counted
            .FirstOrDefault(t => t.Trial.Task == task && t.Role == role && t.Trial.Outcome == TrialOutcome.Completed)?.Trial.Seconds;
        decimal? Sum(string total, HandRole role) => totals.First(t => t.TotalId == total && t.Role == role).Seconds;
        static decimal? Minus(decimal? nonDominant, decimal? dominant) => nonDominant - dominant;
    }

    private static bool OrderDeparted(Instrument instrument, List<ScoredTrial> counted)
    {
        // What did not run has no place in the order, wherever it is listed.
        var ran = counted.Where(t => t.Trial.Outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap or TrialOutcome.Void)
            .Select(t => (t.Trial.Task, t.Role)).ToList();
        var standard = from task in instrument.Tasks
                       from role in instrument.HandOrder
                       where ran.Contains((task.Id, role))
                       select (task.Id, role);
        return !ran.SequenceEqual(standard);
    }
}
