using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Takes a leased session through one attempt and writes the outcome into the ledger.</summary>
/// <param name="ledger">The ledger.</param>
/// <param name="targets">Configured targets.</param>
/// <param name="delivery">Makes the attempt.</param>
/// <param name="plan">Says when to try again.</param>
/// <param name="instruments">Traces and metrics.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="log">Log; no patient data goes into it.</param>
public sealed class AttemptRunner(
    ILedger ledger,
    TargetRegistry targets,
    SessionDelivery delivery,
    RetryPlan plan,
    DeliveryInstruments instruments,
    TimeProvider clock,
    ILogger<AttemptRunner> log)
{
    /// <summary>Runs the attempt to its end; a stop of the service does not cut it off.</summary>
    public async Task RunAsync(LedgerLease lease)
    {
        ArgumentNullException.ThrowIfNull(lease);
        using var activity = instruments.Begin(lease.Entry.Target);
        var begun = clock.GetTimestamp();
        var earlier = await ledger.ReadAttemptsAsync(lease.Entry.Key, CancellationToken.None);
        var result = await AttemptAsync(lease, WasSeen(earlier));
        result = plan.Complete(result with { Duration = clock.GetElapsedTime(begun) }, earlier);
        if (result.Problem?.Kind == DeliveryProblems.TooManyRequests && result.NextAttemptAt is { } rest)
        {
            // The limit is the target's for all of us, not for this session.
            targets.Find(lease.Entry.Target)?.PauseUntil(rest);
        }

        if (!await ledger.CompleteAsync(lease, result, CancellationToken.None))
        {
            log.LogWarning("The lease of session {Session} had run out; attempt {Attempt} is not recorded.", lease.Entry.Key, lease.Entry.Attempts);
        }

        instruments.Record(lease.Entry.Target, result, activity);
        log.LogInformation(
            "Session {Session}, attempt {Attempt} at {Target}: {Status} {Code} (rung {Rung}, HTTP {HttpStatus}).",
            lease.Entry.Key, lease.Entry.Attempts, lease.Entry.Target, result.Status, result.Problem?.Code, result.Rung, result.HttpStatus);
    }

    /// <summary>A session held for its differences is in line again only because a person has seen them.</summary>
    private static bool WasSeen(IReadOnlyList<DeliveryAttempt> earlier) =>
        earlier.Any(attempt => attempt.Status == AttemptStatus.Held && attempt.ProblemCode == DeliveryProblems.KeptDifferently.Code);

    private async Task<AttemptResult> AttemptAsync(LedgerLease lease, bool letStand)
    {
        if (targets.Find(lease.Entry.Target) is not { } target)
        {
            return new(AttemptStatus.Held, DeliveryProblems.UnknownTarget.At(
                "Targets", $"No target named {lease.Entry.Target} is configured.", lease.Entry.Target));
        }

        using var limit = new CancellationTokenSource((lease.Until - lease.StartedAt) * 0.8, clock);
        try
        {
            return await delivery.SendAsync(target, lease, letStand, limit.Token);
        }
        catch (OperationCanceledException) when (limit.IsCancellationRequested)
        {
            return new(AttemptStatus.Unknown, DeliveryProblems.OutcomeUnknown.At("", "The attempt took longer than its lease allows."));
        }
        catch (LedgerException trouble)
        {
            // Only the gate among instances is asked of the store during an attempt, and it stands before a write.
            return new(AttemptStatus.Unknown, trouble.Problem);
        }
#pragma warning disable CA1031 // The edge of the process: a fault in one session must neither stop the others nor be tried without end.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            // Not the message: it may quote what was being worked on.
            log.LogError("Session {Session} met a fault of the program: {Fault} at {Place}.", lease.Entry.Key, fault.GetType().FullName, fault.StackTrace);
            return new(AttemptStatus.Unknown, DeliveryProblems.Fault.At("", $"The program failed with {fault.GetType().Name}."));
        }
    }
}
