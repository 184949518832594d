using System.Collections.Concurrent;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Lets one writer at a time create resources that several sessions share, until they are known to exist.</summary>
/// <param name="instances">Keeps writers of other instances out as well; null if there are none.</param>
/// <param name="target">Name of the target.</param>
public sealed class SharedResourceGate(IInstanceGate? instances = null, string target = "") : IDisposable
{
    private readonly SemaphoreSlim gate = new(1, 1);
    private readonly ConcurrentDictionary<string, bool> known = new(StringComparer.Ordinal);

    /// <summary>Waits for the turn, if any of the resources is not known to exist.</summary>
    /// <param name="conditions">What the resources are found by.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public async Task<Turn> EnterAsync(IReadOnlyCollection<string> conditions, CancellationToken cancellation)
    {
        if (conditions.All(known.ContainsKey))
        {
            return new(this, conditions, null);
        }

        await gate.WaitAsync(cancellation);
        try
        {
            var alone = instances is null ? null : await instances.EnterAsync($"shared resources of {target}", cancellation);
            return new(this, conditions, new(gate, alone));
        }
        catch
        {
            gate.Release();
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => gate.Dispose();

    /// <summary>The right to create them; given back at its end.</summary>
    public sealed class Turn : IAsyncDisposable
    {
        private readonly SharedResourceGate owner;
        private readonly IReadOnlyCollection<string> conditions;
        private readonly Holding? held;

        internal Turn(SharedResourceGate owner, IReadOnlyCollection<string> conditions, Holding? held)
        {
            this.owner = owner;
            this.conditions = conditions;
            this.held = held;
        }

        /// <summary>Says that they exist from now on.</summary>
        public void Exist()
        {
            foreach (var condition in conditions)
            {
                owner.known.TryAdd(condition, true);
            }
        }

        /// <inheritdoc/>
        public ValueTask DisposeAsync() => held?.EndAsync() ?? ValueTask.CompletedTask;
    }

    /// <summary>The gate of this process and the one among instances, given back in this order's reverse.</summary>
    internal sealed class Holding(SemaphoreSlim gate, IAsyncDisposable? alone)
    {
        public async ValueTask EndAsync()
        {
            try
            {
                if (alone is not null)
                {
                    await alone.DisposeAsync();
                }
            }
            finally
            {
                gate.Release();
            }
        }
    }
}
