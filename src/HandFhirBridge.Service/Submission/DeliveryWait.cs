using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Cli;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Submission;

/// <summary>Waits until sessions have come to rest: delivered, held or failed.</summary>
public static class DeliveryWait
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);

    /// <summary>Delivers from this process unless another one does, and waits.</summary>
    public static async Task<DeliveryTally> RunAsync(
        BridgeSettings settings, IReadOnlyList<SessionKey> keys, Progress progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (!settings.Ledger.IsShared && AnotherDelivers(settings.DataDirectory))
        {
            using var ledger = LedgerAccess.Open(settings, TimeProvider.System);
            return await WatchAsync(ledger, keys, progress, cancellation);
        }

        await using var host = await BridgeHost.StartAsync(settings, listen: false, cancellation);
        return await WatchAsync(host.Services.GetRequiredService<ILedger>(), keys, progress, cancellation);
    }

    /// <summary>A serving process holds the lock; this one then only watches. From a shared ledger each delivers.</summary>
    private static bool AnotherDelivers(string dataDirectory)
    {
        using var free = InstanceLock.TryTake(dataDirectory);
        return free is null;
    }

    /// <summary>Watches a ledger that some process delivers from, until each session has come to rest or waits for a later attempt.</summary>
    public static async Task<DeliveryTally> WatchAsync(
        ILedger ledger, IReadOnlyList<SessionKey> keys, Progress progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(keys);
        ArgumentNullException.ThrowIfNull(progress);
        var (open, delivered) = (keys.ToHashSet(), 0);
        while (true)
        {
            var tally = await DeliveryTally.OfAsync(ledger, open, delivered, cancellation);
            delivered = tally.Delivered;
            progress.Show($"{tally.Delivered} of {keys.Count} delivered, {tally.Waiting} held or failed");
            // A target that is down is tried for days; a command does not wait for that.
            if (tally.Open == 0 || tally.OpenAndTried == tally.Open)
            {
                return tally;
            }

            await Task.Delay(Pause, cancellation);
        }
    }
}
