namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Wakes the dispatcher of this process when something was accepted or put in line again.</summary>
public sealed class LedgerSignal : IDisposable
{
    private readonly SemaphoreSlim pending = new(0, 1);
    private readonly Lock gate = new();

    /// <summary>Something may be due.</summary>
    public void Pulse()
    {
        lock (gate)
        {
            if (pending.CurrentCount == 0)
            {
                pending.Release();
            }
        }
    }

    /// <summary>Returns at the next pulse, or when the time is over.</summary>
    public async Task WaitAsync(TimeSpan longest, TimeProvider clock, CancellationToken cancellation)
    {
        using var over = new CancellationTokenSource(longest, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(over.Token, cancellation);
        try
        {
            await pending.WaitAsync(either.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            // The time is over: look again.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => pending.Dispose();
}
