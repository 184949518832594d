using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;

namespace HandFhirBridge.Benchmarks;

/// <summary>How many sessions a second the embedded record takes, each in one durable transaction, from one client and from several.</summary>
internal static class RecordCommand
{
    internal const string Name = "record";

    internal static async Task<int> RunAsync(int count)
    {
        await using var record = await RecordHost.StartAsync();
        await TakeAsync(record, count, clients: 2);
        foreach (var clients in new[] { 1, 2, 4 })
        {
            var (took, spent) = await TakeAsync(record, count, clients);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{clients} at a time: {count / took.TotalSeconds:F1} sessions a second, {took.TotalMilliseconds / count:F1} ms each, {spent.TotalMilliseconds / count:F1} ms of processor time"));
        }

        return 0;
    }

    private static async Task<(TimeSpan Took, TimeSpan Spent)> TakeAsync(RecordHost record, int count, int clients)
    {
        var waiting = new ConcurrentQueue<ReadOnlyMemory<byte>>(MappedCorpus.Take(count).Select(s => s.Bundle));
        GC.Collect();
        var (cpu, start) = (Process.GetCurrentProcess().TotalProcessorTime, Stopwatch.GetTimestamp());
        await Task.WhenAll(Enumerable.Range(0, clients).Select(async _ =>
        {
            while (waiting.TryDequeue(out var bundle))
            {
                await record.PostAsync(bundle);
            }
        }));
        return (Stopwatch.GetElapsedTime(start), Process.GetCurrentProcess().TotalProcessorTime - cpu);
    }
}
