using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Postgres;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Logging.Abstractions;

namespace HandFhirBridge.Delivery.Tests.Sharing;

/// <summary>One of several instances that share a ledger: connections, targets and memory of its own, nothing in common but the database.</summary>
internal sealed class Instance : IDisposable
{
    private readonly HttpClient client;
    private readonly LedgerSignal signal = new();
    private readonly DeliveryInstruments instruments = new(TimeProvider.System);
    private readonly TargetRegistry registry;
    private readonly Dispatcher dispatcher;

    /// <param name="database">Connection string.</param>
    /// <param name="targets">What it writes to.</param>
    /// <param name="clock">Its clock.</param>
    /// <param name="wire">What its requests go through; null for the network as it is.</param>
    public Instance(string database, IEnumerable<TargetOptions> targets, TimeProvider clock, HttpMessageHandler? wire = null)
    {
        client = new(wire ?? new SocketsHttpHandler()) { Timeout = Timeout.InfiniteTimeSpan };
        Ledger = new(database, clock, signal: signal);
        var options = new DeliveryOptions { SingleInstance = false };
        registry = new(targets.Select(target => new FhirTarget(target, () => client, clock, () => 0.5, instances: Ledger)));
        var runner = new AttemptRunner(
            Ledger,
            registry,
            new(new PatientFinder(clock), Ladder.Whole()),
            new(options.Retry, clock, () => 1.0),
            instruments,
            clock,
            NullLogger<AttemptRunner>.Instance);
        dispatcher = new(Ledger, registry, runner, instruments, signal, options, clock, NullLogger<Dispatcher>.Instance);
    }

    public PostgresLedger Ledger { get; }

    /// <summary>Sends one session that is due.</summary>
    public Task<bool> SendOnceAsync(CancellationToken cancellation) => dispatcher.RunOnceAsync(cancellation);

    /// <summary>Sends what is due until nothing is open any more.</summary>
    public Task<int> SendAsync(CancellationToken cancellation) => SendAsync(_ => Task.FromResult(false), cancellation);

    /// <summary>Sends what is due until nothing is open any more, or this instance is told to stop.</summary>
    public async Task<int> SendAsync(Func<CancellationToken, Task<bool>> stop, CancellationToken cancellation)
    {
        var sent = 0;
        while (!cancellation.IsCancellationRequested && !await stop(cancellation))
        {
            if (await dispatcher.RunOnceAsync(cancellation))
            {
                sent++;
            }
            else if ((await Ledger.CountAsync(cancellation)).ByState[DeliveryState.Accepted] == 0)
            {
                return sent;
            }
        }

        return sent;
    }

    public void Dispose()
    {
        dispatcher.Dispose();
        registry.Dispose();
        Ledger.Dispose();
        instruments.Dispose();
        signal.Dispose();
        client.Dispose();
    }
}
