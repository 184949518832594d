using System.Collections.Concurrent;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Lets one writer at a time create resources that several sessions share, until they are known to exist.</summary>
public sealed class SharedResourceGate : IDisposable
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
            return new(this, conditions, false);
        }

        await gate.WaitAsync(cancellation);
        return new(this, conditions, true);
    }

    /// <inheritdoc/>
    public void Dispose() => gate.Dispose();

    /// <summary>The right to create them; given back at its end.</summary>
    public sealed class Turn : IDisposable
    {
        private readonly SharedResourceGate owner;
        private readonly IReadOnlyCollection<string> conditions;
        private readonly bool holdsGate;

        internal Turn(SharedResourceGate owner, IReadOnlyCollection<string> conditions, bool holdsGate)
        {
            this.owner = owner;
            this.conditions = conditions;
            this.holdsGate = holdsGate;
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
        public void Dispose()
        {
            if (holdsGate)
            {
                owner.gate.Release();
            }
        }
    }
}
