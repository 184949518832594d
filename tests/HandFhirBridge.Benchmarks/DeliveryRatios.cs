using System.Diagnostics;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Postgres;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Benchmarks;

/// <summary>The way from accept to the record: against a bare client, durable accepts, instances that share a ledger.</summary>
internal static class DeliveryRatios
{
    // As many as the bridge sends at the same time.
    private const int Concurrency = 4;

    // Common practice, no source: a round trip to a server in the same town and its work.
    private static readonly TimeSpan Distance = TimeSpan.FromMilliseconds(50);

    /// <param name="runs">Of each side.</param>
    /// <param name="sessions">In a run.</param>
    /// <param name="warmingRounds">Of all sides before, so that none pays for what is done once: a service has long been compiled when the next session comes.</param>
    internal static async Task<Ratio[]> MeasureAsync(int runs, int sessions, int warmingRounds)
    {
        await using var record = await RecordHost.StartAsync();
        for (var round = 0; round < warmingRounds; round++)
        {
            await BridgeAsync(record, sessions);
            await BareAsync(record, sessions, isWhole: true);
        }

        List<Ratio> ratios = [.. await BridgeAgainstBareAsync(record, runs, sessions), await AcceptAsync(runs, sessions, null)];
        if (PostgresServer.Missing is { } missing)
        {
            await Console.Error.WriteLineAsync($"acceptPostgres and fourInstances are not measured: {missing}");
            return [.. ratios];
        }

        await using var postgres = await PostgresServer.StartAsync(CancellationToken.None);
        ratios.Add(await AcceptAsync(runs, sessions, postgres));
        ratios.Add(await InstancesAsync(record, postgres, runs, sessions));
        return [.. ratios];
    }

    private static async Task<Ratio[]> BridgeAgainstBareAsync(RecordHost record, int runs, int sessions)
    {
        var (ours, same) = await Alternating.MeasureAsync(runs, () => BridgeAsync(record, sessions), () => BareAsync(record, sessions, isWhole: true));
        var (again, posting) = await Alternating.MeasureAsync(runs, () => BridgeAsync(record, sessions), () => BareAsync(record, sessions, isWhole: false));
        return
        [
            new("deliver", ours, same, "ms a session",
                "a bare HTTP client that sends the same requests to the same server, ready made: search for the chart, transaction, reading back; as many sessions at a time"),
            new("deliverPosting", again, posting, "ms a session",
                "a bare HTTP client that only posts the same ready transactions, neither looks for charts nor reads back; as many at a time"),
        ];
    }

    private static async Task<double> BridgeAsync(RecordHost record, int sessions)
    {
        var folder = Directory.CreateTempSubdirectory("hfb-measured-");
        try
        {
            await using var bridge = new BridgeUnderLoad(record.BaseUrl, Path.Combine(folder.FullName, "ledger.db"), record.Knowledge, TimeSpan.Zero);
            await bridge.Ledger.AcceptAsync(MappedCorpus.Take(sessions), CancellationToken.None);
            await bridge.StartAsync();
            return await bridge.UntilDeliveredAsync(sessions) / sessions;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Task<double> BareAsync(RecordHost record, int sessions, bool isWhole) =>
        BareClient.MeasureAsync(record, MappedCorpus.Take(sessions), Concurrency, isWhole);

    private static async Task<Ratio> AcceptAsync(int runs, int sessions, PostgresServer? postgres)
    {
        var folder = Directory.CreateTempSubdirectory("hfb-measured-");
        try
        {
            ILedger ledger = postgres is null
                ? new SqliteLedger(Path.Combine(folder.FullName, "ledger.db"), TimeProvider.System)
                : new PostgresLedger(await postgres.CreateDatabaseAsync(CancellationToken.None), TimeProvider.System);
            using (ledger as IDisposable)
            {
                await AcceptOneByOneAsync(ledger, sessions);
                var (ours, other) = await Alternating.MeasureAsync(
                    runs, () => AcceptOneByOneAsync(ledger, sessions), () => WriteThroughAsync(Path.Combine(folder.FullName, "bare"), sessions));
                return new(
                    postgres is null ? "acceptSqlite" : "acceptPostgres", ours, other, "ms a session, one after the other",
                    "the same bytes appended to a file and flushed to the disk, once a session");
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<double> AcceptOneByOneAsync(ILedger ledger, int sessions)
    {
        var taken = MappedCorpus.Take(sessions);
        var start = Stopwatch.GetTimestamp();
        foreach (var session in taken)
        {
            await ledger.AcceptAsync([session], CancellationToken.None);
        }

        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / sessions;
    }

    private static async Task<double> WriteThroughAsync(string path, int sessions)
    {
        var taken = MappedCorpus.Take(sessions);
        await using var file = new FileStream(path, FileMode.Append, FileAccess.Write);
        var start = Stopwatch.GetTimestamp();
        foreach (var session in taken)
        {
            await file.WriteAsync(session.Document);
            await file.WriteAsync(session.Bundle);
            file.Flush(flushToDisk: true);
        }

        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / sessions;
    }

    private static async Task<Ratio> InstancesAsync(RecordHost record, PostgresServer postgres, int runs, int sessions)
    {
        var (ours, other) = await Alternating.MeasureAsync(
            runs, () => SharedAsync(record, postgres, 4, sessions), () => SharedAsync(record, postgres, 1, sessions));
        return new("fourInstances", ours, other, "ms a session", "one instance on the same PostgreSQL; each request takes 50 ms more on both sides");
    }

    private static async Task<double> SharedAsync(RecordHost record, PostgresServer postgres, int instances, int sessions)
    {
        var folder = Directory.CreateTempSubdirectory("hfb-measured-");
        var reference = Path.Combine(folder.FullName, "connection");
        await File.WriteAllTextAsync(reference, await postgres.CreateDatabaseAsync(CancellationToken.None));
        var all = Enumerable.Range(0, instances).Select(_ => new BridgeUnderLoad(record.BaseUrl, "file:" + reference, record.Knowledge, Distance)).ToList();
        try
        {
            await all[0].Ledger.AcceptAsync(MappedCorpus.Take(sessions), CancellationToken.None);
            var start = Stopwatch.GetTimestamp();
            await Task.WhenAll(all.Select(one => one.StartAsync()));
            await all[0].UntilDeliveredAsync(sessions);
            return Stopwatch.GetElapsedTime(start).TotalMilliseconds / sessions;
        }
        finally
        {
            foreach (var one in all)
            {
                await one.DisposeAsync();
            }

            folder.Delete(recursive: true);
        }
    }
}
