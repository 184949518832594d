using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>Ledger and dispatch wired to a target, with time that stands still until a test moves it.</summary>
public sealed class Bridge : IDisposable
{
    private readonly string folder;
    private readonly HttpClient client;

    /// <param name="target">FHIR base.</param>
    /// <param name="change">Other settings.</param>
    /// <param name="targetClock">Clock of the connection; null for the still one.</param>
    /// <param name="survivor">Folder with the files a killed process left; null begins with an empty ledger.</param>
    /// <param name="knowledge">Folder with what is known of targets; null knows nothing.</param>
    /// <param name="wire">What requests go through; null for the network as it is.</param>
    public Bridge(Uri target, Action<TargetOptions>? change = null, TimeProvider? targetClock = null, string? survivor = null, string? knowledge = null,
        SocketsHttpHandler? wire = null)
    {
        folder = survivor ?? Directory.CreateTempSubdirectory("bridge-").FullName;
        var options = new TargetOptions { BaseUrl = target, ConnectRetries = 0 };
        change?.Invoke(options);
        client = new(wire ?? new SocketsHttpHandler { AllowAutoRedirect = false }) { MaxResponseContentBufferSize = options.LargestAnswerBytes, Timeout = Timeout.InfiniteTimeSpan };
        Target = new(options, () => client, targetClock ?? Clock, () => 0.5, knowledge is null ? null : new(knowledge));
        Registry = new([Target]);
        Ledger = Open();
        Runner = CreateRunner(Ledger);
        Dispatcher = new(Ledger, Registry, Runner, Instruments, Signal, Options, Clock, NullLogger<Dispatcher>.Instance);
    }

    public FakeTimeProvider Clock { get; } = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    public LedgerSignal Signal { get; } = new();

    public DeliveryOptions Options { get; } = new();

    public FhirTarget Target { get; }

    public TargetRegistry Registry { get; }

    public SqliteLedger Ledger { get; }

    public AttemptRunner Runner { get; }

    public Dispatcher Dispatcher { get; }

    private DeliveryInstruments Instruments { get; } = new(TimeProvider.System);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async Task<LedgerEntry> DeliverAsync(AcceptedSession session)
    {
        (await Ledger.AcceptAsync([session], Cancellation))[0].Outcome.ShouldBe(AcceptOutcome.Accepted);
        await RunAsync();
        return await EntryAsync(session);
    }

    /// <summary>Sends what is due now.</summary>
    public async Task RunAsync()
    {
        while (await Dispatcher.RunOnceAsync(Cancellation))
        {
        }
    }

    /// <summary>Moves time to each next attempt until none is left.</summary>
    public async Task<int> RunToTheEndAsync(int most = 50)
    {
        for (var rounds = 0; rounds < most; rounds++)
        {
            await RunAsync();
            if (await Ledger.NextDueAsync(Cancellation) is not { } due)
            {
                return rounds;
            }

            Clock.SetUtcNow(due > Clock.GetUtcNow() ? due : Clock.GetUtcNow().AddSeconds(1));
        }

        return most;
    }

    /// <summary>Copies the ledger's files as they are this instant: what a kill would leave.</summary>
    public string Snapshot()
    {
        var copy = Directory.CreateTempSubdirectory("survivor-").FullName;
        foreach (var file in Directory.GetFiles(folder, "ledger.db*").Where(f => !f.EndsWith("-shm", StringComparison.Ordinal)))
        {
            File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
        }

        return copy;
    }

    public async Task<LedgerEntry> EntryAsync(AcceptedSession session) => (await Ledger.FindAsync(session.Key, Cancellation)).ShouldNotBeNull();

    public async Task<DeliveryAttempt> LastAttemptAsync(AcceptedSession session) => (await Ledger.ReadAttemptsAsync(session.Key, Cancellation))[^1];

    public void Dispose()
    {
        Dispatcher.Dispose();
        Ledger.Dispose();
        Registry.Dispose();
        Instruments.Dispose();
        Signal.Dispose();
        client.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private SqliteLedger Open() => new(Path.Combine(folder, "ledger.db"), Clock, signal: Signal);

    private AttemptRunner CreateRunner(ILedger ledger) => new(
        ledger,
        Registry,
        new(new PatientFinder(Clock), Ladder.Whole()),
        new(Options.Retry, Clock, () => 1.0),
        Instruments,
        Clock,
        NullLogger<AttemptRunner>.Instance);
}
