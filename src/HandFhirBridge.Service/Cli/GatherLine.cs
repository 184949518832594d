using System.Collections.Concurrent;
using HandFhirBridge.Outcomes.Gather;

namespace HandFhirBridge.Service.Cli;

/// <summary>The line of progress of a gathering: what each source is at.</summary>
/// <param name="progress">The line.</param>
internal sealed class GatherLine(Progress progress) : IProgress<GatherProgress>
{
    private readonly ConcurrentDictionary<string, GatherProgress> sources = new(StringComparer.Ordinal);
    private readonly Lock writing = new();

    public void Report(GatherProgress value)
    {
        sources[value.Source] = value;
        lock (writing)
        {
            progress.Show(string.Join("  ", sources.Values.OrderBy(s => s.Source, StringComparer.Ordinal).Select(s => $"{s.Source}: {s.Doing} ({s.Read})")));
        }
    }

    public void Clear() => progress.Clear();
}
