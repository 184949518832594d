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
        await MeasureAsync(record, count, "whole sessions, report and all", () => MappedCorpus.Take(count).Select(s => s.Bundle));
        var corpus = new RecordCorpus();
        await MeasureAsync(record, count, $"transactions of {corpus.Codes.Count} trials", () => corpus.Sittings(count).Select(sitting => (ReadOnlyMemory<byte>)sitting));
        return 0;
    }

    private static async Task MeasureAsync(RecordHost record, int count, string what, Func<IEnumerable<ReadOnlyMemory<byte>>> bundles)
    {
        await TakeAsync(record, bundles(), clients: 2);
        foreach (var clients in new[] { 1, 2, 4 })
        {
            var (took, spent) = await TakeAsync(record, bundles(), clients);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{what}, {clients} at a time: {count / took.TotalSeconds:F1} a second, {took.TotalMilliseconds / count:F1} ms each, {spent.TotalMilliseconds / count:F1} ms of processor time"));
        }
    }

    private static async Task<(TimeSpan Took, TimeSpan Spent)> TakeAsync(RecordHost record, IEnumerable<ReadOnlyMemory<byte>> bundles, int clients)
    {
        var waiting = new ConcurrentQueue<ReadOnlyMemory<byte>>(bundles);
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
