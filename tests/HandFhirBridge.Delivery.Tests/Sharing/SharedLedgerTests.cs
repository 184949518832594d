using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Sharing;

/// <summary>Four instances deliver from one PostgreSQL ledger; one of them dies on the way.</summary>
public sealed class SharedLedgerTests(PostgresCluster cluster) : IDisposable
{
    private const int Patients = 10;
    private const int Sessions = 40;
    private readonly ScriptedTarget target = new();
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(Rung.TransactionOfUpdates, true)]
    [InlineData(Rung.TransactionOfUpdates, false)]
    [InlineData(Rung.TransactionOfConditionalCreates, true)]
    [InlineData(Rung.TransactionOfConditionalCreates, false)]
    public async Task Send_FourInstancesAndOneDies_EveryReportIsThereOnce(Rung rung, bool lastWriteReachesTheServer)
    {
        var database = await cluster.CreateDatabaseAsync(Cancellation);
        Admit();
        // Standing still, so that what the dead instance waits for never comes to it.
        var stopped = new FakeTimeProvider(clock.GetUtcNow());
        using var wire = new DyingWire(survives: 3, lastWriteReachesTheServer);
        using var dying = new Instance(database, [Options(rung)], stopped, wire);
        var others = Enumerable.Range(0, 3).Select(_ => new Instance(database, [Options(rung)], clock)).ToList();
        try
        {
            await dying.Ledger.AcceptAsync(Accepted().ToList(), Cancellation);
            _ = dying.SendAsync(CancellationToken.None);
            await wire.Dead.WaitAsync(TimeSpan.FromMinutes(2), Cancellation);
            await Task.WhenAll(others.Select(other => Task.Run(() => other.SendAsync(stop => IsAllButOnePatientSentAsync(other, stop), Cancellation))));

            clock.Advance(TimeSpan.FromMinutes(10));
            var sent = await Task.WhenAll(others.Select(other => Task.Run(() => other.SendAsync(Cancellation))));

            sent.Sum().ShouldBeGreaterThan(0);
            (await others[0].Ledger.CountAsync(Cancellation)).ByState[DeliveryState.Delivered].ShouldBe(Sessions);
            target.Transactions.Count.ShouldBe(Sessions, "each session is sent once; the one in doubt is looked for first");
            Reports().Count.ShouldBe(Sessions);
            Reports().Distinct(StringComparer.Ordinal).Count().ShouldBe(Sessions);
        }
        finally
        {
            others.ForEach(other => other.Dispose());
        }
    }

    [Fact]
    public async Task Enter_WhileAnotherInstanceHasTheTurn_WaitsUntilItEnds()
    {
        var database = await cluster.CreateDatabaseAsync(Cancellation);
        using var one = new Instance(database, [Options(Rung.TransactionOfUpdates)], clock);
        using var other = new Instance(database, [Options(Rung.TransactionOfUpdates)], clock);
        var turn = await one.Ledger.EnterAsync("shared", Cancellation);
        await (await other.Ledger.EnterAsync("something else", Cancellation)).DisposeAsync();

        var waiting = other.Ledger.EnterAsync("shared", Cancellation);
        // As the server sees it: the lock is asked for and not granted.
        while (await WaitingLocksAsync(database) == 0)
        {
            await Task.Yield();
        }

        waiting.IsCompleted.ShouldBeFalse();
        await turn.DisposeAsync();
        await (await waiting.WaitAsync(TimeSpan.FromSeconds(30), Cancellation)).DisposeAsync();
    }

    public void Dispose() => target.Dispose();

    private static async Task<long> WaitingLocksAsync(string database)
    {
        await using var connection = new Npgsql.NpgsqlConnection(database);
        await connection.OpenAsync(Cancellation);
        await using var command = new Npgsql.NpgsqlCommand("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND NOT granted", connection);
        return (long)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    private static IEnumerable<AcceptedSession> Accepted() =>
        Enumerable.Range(0, Sessions).Select(n => MappedSessions.Session($"S-{n}", patient: $"P-{n % Patients:0000}"));

    private static async Task<bool> IsAllButOnePatientSentAsync(Instance instance, CancellationToken cancellation)
    {
        // The patient of the session under way at the dead instance has to wait for its lease to end.
        var counts = await instance.Ledger.CountAsync(cancellation);
        return counts.ByState[DeliveryState.Sending] == 1 && counts.ByState[DeliveryState.Accepted] <= (Sessions / Patients) - 1;
    }

    private TargetOptions Options(Rung rung) => new() { BaseUrl = target.Base, ConnectRetries = 0, BestRung = rung };

    private void Admit()
    {
        target.Patients.Clear();
        target.Patients.AddRange(Enumerable.Range(0, Patients).Select(n => ScriptedTarget.Chart(chart =>
        {
            chart["id"] = $"chart-{n}";
            chart["identifier"]![0]!["value"] = $"P-{n:0000}";
        })));
    }

    private List<string> Reports() => target.Record.Stored.Where(s => s.Key.StartsWith("DiagnosticReport/", StringComparison.Ordinal))
        .Select(s => (string)s.Value["identifier"]![0]!["value"]!).ToList();
}
