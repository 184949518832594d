using System.Diagnostics;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Faults.Tests.Servers;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>Kills workers over one ledger and one server again and again, lets the last one end its work, and reads the server.</summary>
/// <param name="kind">The server.</param>
/// <param name="kills">How often.</param>
/// <param name="seed">Where the instants and faults come from. The machine's own timing adds to them.</param>
internal sealed class Campaign(ServerKind kind, int kills, int seed)
{
    private static readonly TimeSpan LongestLife = TimeSpan.FromMilliseconds(600);
    private static readonly TimeSpan LongestSilence = TimeSpan.FromMinutes(1);
    private readonly Random random = new(seed);
    private int acknowledged;

    public async Task<CampaignResult> RunAsync(CancellationToken cancellation)
    {
        var begun = Stopwatch.GetTimestamp();
        var folder = Directory.CreateTempSubdirectory("hfb-faults-").FullName;
        try
        {
            var feed = new Feed(Directory.CreateDirectory(Path.Combine(folder, "feed")).FullName);
            var data = Directory.CreateDirectory(Path.Combine(folder, "data")).FullName;
            await using var server = await FaultyServer.StartAsync(kind, seed, cancellation);
            await Charts.LoadAsync(server.Truth, cancellation);
            for (var kill = 0; kill < kills; kill++)
            {
                await KillOnceAsync(data, server, feed, cancellation);
            }

            using var last = WorkerProcess.Start(data, server.Target, feed, acknowledged, kind, end: true);
            var waiting = await EndAsync(last, server, cancellation);
            last.Acknowledged.ShouldBe(feed.Count);
            var verdict = await Verdict.ReadAsync(server, feed, cancellation);
            return new(kind, kills, server.Faults, server.Orphans, waiting, verdict, Stopwatch.GetElapsedTime(begun));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>A backlog may take its time; a worker that asks the server nothing any more has stalled.</summary>
    private static async Task<int> EndAsync(WorkerProcess worker, FaultyServer server, CancellationToken cancellation)
    {
        var ending = worker.EndAsync(cancellation);
        for (var seen = -1; !ending.IsCompleted;)
        {
            server.Requests.ShouldNotBe(seen, "Sessions are open, and the worker asks the server nothing any more.");
            seen = server.Requests;
            await Task.WhenAny(ending, Task.Delay(LongestSilence, cancellation));
        }

        return await ending;
    }

    private async Task KillOnceAsync(string data, FaultyServer server, Feed feed, CancellationToken cancellation)
    {
        // Enough for the time it lives, so that the kill meets both a commit and deliveries.
        feed.FillTo(acknowledged + (kind.Rung == Rung.SingleWrites ? 2 : 4));
        using var worker = WorkerProcess.Start(data, server.Target, feed, acknowledged, kind, end: false);
        await WaitAsync(worker, server, cancellation);
        acknowledged = await worker.KillAsync();
    }

    /// <summary>One in eight dies while it starts, three once it runs, four after the server has seen a number of its requests.</summary>
    private async Task WaitAsync(WorkerProcess worker, FaultyServer server, CancellationToken cancellation)
    {
        var way = random.Next(8);
        if (way > 0)
        {
            await worker.Ready;
        }

        if (way > 3)
        {
            // A session of single writes has some fifty requests, of a transaction some eight.
            var until = server.Requests + random.Next(1, kind.Rung == Rung.SingleWrites ? 60 : 12);
            for (var begun = Stopwatch.GetTimestamp(); server.Requests < until && Stopwatch.GetElapsedTime(begun) < LongestLife * 5;)
            {
                await Task.Delay(2, cancellation);
            }
        }

        await Task.Delay(random.NextDouble() * (way > 3 ? LongestLife / 4 : LongestLife), cancellation);
    }
}
