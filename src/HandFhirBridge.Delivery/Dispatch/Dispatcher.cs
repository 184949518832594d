using System.Collections.Concurrent;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Drains the ledger in the background: as many sessions at once as allowed, one of a patient at a time.</summary>
/// <param name="ledger">The ledger.</param>
/// <param name="targets">Configured targets.</param>
/// <param name="runner">Runs attempts.</param>
/// <param name="instruments">Metrics.</param>
/// <param name="signal">Wakes.</param>
/// <param name="options">Settings.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="log">Log.</param>
public sealed class Dispatcher(
    ILedger ledger,
    TargetRegistry targets,
    AttemptRunner runner,
    DeliveryInstruments instruments,
    LedgerSignal signal,
    DeliveryOptions options,
    TimeProvider clock,
    ILogger<Dispatcher> log) : BackgroundService
{
    /// <summary>Counting reads over all sessions there ever were.</summary>
    private static readonly TimeSpan BetweenObservations = TimeSpan.FromSeconds(10);

    private readonly string owner = $"{Environment.MachineName}/{Environment.ProcessId}";
    private readonly ConcurrentDictionary<Task, bool> running = new();
    private long? observedAt;

    /// <summary>Sends one session that is due, if there is one, and waits for the end of the attempt.</summary>
    /// <returns>False if nothing was due.</returns>
    public async Task<bool> RunOnceAsync(CancellationToken cancellation)
    {
        if (await LeaseAsync(cancellation) is not { } lease)
        {
            return false;
        }

        using var turn = targets.Find(lease.Entry.Target)?.Load.Begin();
        await runner.RunAsync(lease);
        return true;
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var slots = new SemaphoreSlim(options.Concurrency, options.Concurrency);
        try
        {
            // Off the caller's thread: the host waits for this method to yield before it starts the next service.
            await Task.Yield();
            await RecoverAsync(stoppingToken);
            while (true)
            {
                // Also while there is always something to send: then the numbers matter most.
                await ObserveAsync(stoppingToken);
                await slots.WaitAsync(stoppingToken);
                if (!await StartNextAsync(slots, stoppingToken))
                {
                    slots.Release();
                    await WaitAsync(stoppingToken);
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The service stops: what is under way is finished, nothing new is begun.
            await Task.WhenAll(running.Keys);
        }
    }

    private async Task RecoverAsync(CancellationToken cancellation)
    {
        if (!options.SingleInstance)
        {
            return;
        }

        while (true)
        {
            try
            {
                // As after a write without an answer: the server may not have ended the dead process's last one, and a look now would miss it.
                if (await ledger.ReleaseAbandonedAsync(options.Retry.FirstAfterError, cancellation) is var left and > 0)
                {
                    log.LogWarning("{Sessions} sessions were being sent when the service ended last time; they are looked for before they are sent again.", left);
                }

                return;
            }
            catch (LedgerException trouble)
            {
                await RestAsync(trouble, cancellation);
            }
        }
    }

    private async Task<bool> StartNextAsync(SemaphoreSlim slots, CancellationToken cancellation)
    {
        try
        {
            if (await LeaseAsync(cancellation) is not { } lease)
            {
                return false;
            }

            // Begun before the next lease is asked for, so that this one counts for its target by then.
            var attempt = RunAsync(lease, targets.Find(lease.Entry.Target)?.Load.Begin(), slots);
            running.TryAdd(attempt, true);
            _ = attempt.ContinueWith(done => running.TryRemove(done, out _), TaskScheduler.Default);
            return true;
        }
        catch (LedgerException trouble)
        {
            await RestAsync(trouble, cancellation);
            return false;
        }
    }

    private async Task RunAsync(LedgerLease lease, IDisposable? turn, SemaphoreSlim slots)
    {
        try
        {
            await Task.Yield();
            await runner.RunAsync(lease);
        }
        catch (LedgerException trouble)
        {
            // The lease runs out, and the next attempt looks before it writes.
            log.LogError("The outcome of session {Session} could not be recorded: {Problem}", lease.Entry.Key, trouble.Problem);
        }
        finally
        {
            turn?.Dispose();
            slots.Release();
            signal.Pulse();
        }
    }

    private Task<LedgerLease?> LeaseAsync(CancellationToken cancellation) =>
        ledger.LeaseAsync(owner, options.LeaseDuration, targets.Paused, cancellation);

    private async Task ObserveAsync(CancellationToken cancellation)
    {
        try
        {
            if (observedAt is not { } last || clock.GetElapsedTime(last) >= BetweenObservations)
            {
                instruments.Observe(await ledger.CountAsync(cancellation), await ledger.GroupAsync(new(), cancellation));
                observedAt = clock.GetTimestamp();
            }
        }
        catch (LedgerException trouble)
        {
            log.LogError("The ledger cannot be read: {Problem}", trouble.Problem);
        }
    }

    private async Task WaitAsync(CancellationToken cancellation)
    {
        var rest = targets.ShortestRest is { } shortest && shortest < options.PollInterval ? shortest : options.PollInterval;
        await signal.WaitAsync(rest, clock, cancellation);
    }

    private async Task RestAsync(LedgerException trouble, CancellationToken cancellation)
    {
        log.LogError("The ledger cannot be used: {Problem}", trouble.Problem);
        await Task.Delay(options.PollInterval, clock, cancellation);
    }
}
