using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Gather.Reading;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Gather;

/// <summary>Gathers outcomes from any number of servers into one set, all at the same time. One that fails is named and stops no other.</summary>
/// <param name="set">Where they go.</param>
/// <param name="options">How to gather.</param>
/// <param name="clock">Gives the time and the waits.</param>
public sealed class Gatherer(GatheredSet set, GatherOptions options, TimeProvider clock)
{
    /// <summary>Gathers.</summary>
    /// <param name="sources">Servers, with names that differ.</param>
    /// <param name="progress">Is told how far each is, from several threads.</param>
    /// <param name="cancellation">Stops; what was read is kept and gone on from the next time.</param>
    /// <returns>A result a source, in their order.</returns>
    /// <exception cref="GatherException">Another gathering is at work in the same set.</exception>
    public async Task<ImmutableArray<SourceResult>> GatherAsync(
        IReadOnlyList<GatherSource> sources, IProgress<GatherProgress> progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(sources);
        using var alone = TakeLock();
        return [.. await Task.WhenAll(sources.Select(source => GatherAsync(source, progress, cancellation)))];
    }

    private async Task<SourceResult> GatherAsync(GatherSource source, IProgress<GatherProgress> progress, CancellationToken cancellation)
    {
        var gatherer = new SourceGatherer(new SourceFolder(set, source), new FhirRequests(source, options, clock), progress);
        try
        {
            var (read, held) = await gatherer.GatherAsync(cancellation);
            return new(source.Name, gatherer.Method, read, held, gatherer.Notes, null);
        }
        catch (GatherException failed)
        {
            return Failed(failed.Problem);
        }
        catch (Exception failed) when (!cancellation.IsCancellationRequested)
        {
            // The edge between sources: the client's own handlers sign in and fail in ways of theirs, and no failure of one source may stop another.
            // The message may quote an address, which can name a patient: the kind of failure says enough.
            return Failed(GatherProblems.NotReached.At("", $"{source.Name} could not be gathered ({failed.GetType().Name})."));
        }

        SourceResult Failed(Problem problem) =>
            new(source.Name, gatherer.Method, 0, ImmutableSortedDictionary<string, long>.Empty, gatherer.Notes, problem);
    }

    private FileStream TakeLock()
    {
        Directory.CreateDirectory(set.Folder);
        try
        {
            return new FileStream(Path.Combine(set.Folder, ".lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException taken)
        {
            throw new GatherException(GatherProblems.AtWork.At("", $"Another gathering is at work in {set.Folder}."), taken);
        }
    }
}
