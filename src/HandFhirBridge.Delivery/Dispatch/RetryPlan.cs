using System.Collections.Frozen;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>When to try again, and when no more.</summary>
/// <param name="options">Waits and limits.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="randomness">From 0 up to 1; spreads waits so that what failed together is not tried together.</param>
public sealed class RetryPlan(RetryOptions options, TimeProvider clock, Func<double> randomness)
{
    private static readonly FrozenSet<ProblemKind> MayBePermanent = new[]
    {
        DeliveryProblems.ServerError, DeliveryProblems.StoredInPart, DeliveryProblems.Conflict, DeliveryProblems.Fault,
    }.ToFrozenSet();

    /// <summary>Completes a result that asks to be tried again.</summary>
    /// <param name="result">What came of the attempt; a time the target asked for stays.</param>
    /// <param name="earlier">Attempts before it, in order.</param>
    public AttemptResult Complete(AttemptResult result, IReadOnlyList<DeliveryAttempt> earlier)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (result.Status is not (AttemptStatus.Retry or AttemptStatus.Unknown) || result.Problem is not { } problem)
        {
            return result;
        }

        // What a person put in line again starts anew.
        var run = earlier.Reverse().TakeWhile(a => a.Status is not (AttemptStatus.Held or AttemptStatus.Failed)).ToList();
        var limited = MayBePermanent.Contains(problem.Kind)
            || (problem.Kind == DeliveryProblems.UnusableAnswer && result.Status == AttemptStatus.Unknown);
        if (limited && run.Count(a => a.ProblemCode == problem.Code) + 1 >= options.ErrorLimit)
        {
            return result with { Status = AttemptStatus.Failed, NextAttemptAt = null };
        }

        // A server that gave no answer may still be at work on the last write: it is not asked at once whether it stored anything.
        var first = limited || problem.Kind == DeliveryProblems.OutcomeUnknown ? options.FirstAfterError : options.First;
        return result.NextAttemptAt is null
            ? result with { NextAttemptAt = clock.GetUtcNow() + Wait(first, run.Count) }
            : result;
    }

    /// <summary>Doubled with each attempt up to the longest; of that, a random part between a half and the whole.</summary>
    private TimeSpan Wait(TimeSpan first, int earlier)
    {
        var whole = Math.Min(first.TotalSeconds * Math.Pow(2, Math.Min(earlier, 30)), options.Longest.TotalSeconds);
        return TimeSpan.FromSeconds(whole * (0.5 + (randomness() / 2)));
    }
}
