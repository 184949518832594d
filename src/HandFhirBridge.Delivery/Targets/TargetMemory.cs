using System.Collections.Immutable;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>What a target can do, by its own word and by experience. Read anew when it is too old.</summary>
public sealed class TargetMemory : IDisposable
{
    private readonly FhirTarget target;
    private readonly TimeProvider clock;
    private readonly TargetKnowledgeFile? file;
    private readonly SemaphoreSlim reading = new(1, 1);
    private volatile bool withoutBatches;

    internal TargetMemory(FhirTarget target, TimeProvider clock, TargetKnowledgeFile? file)
    {
        this.target = target;
        this.clock = clock;
        this.file = file;
        var known = file?.Load(target.Name, target.Base);
        (Capabilities, Rung, LastFall) = (known?.Capabilities, known?.Rung, known?.LastFall);
    }

    /// <summary>What was declared last; null before the first reading.</summary>
    public TargetCapabilities? Capabilities { get; private set; }

    /// <summary>Rung written with last; null before the first success, and again once the capabilities are read anew.</summary>
    public RungMemory? Rung { get; private set; }

    /// <summary>Last fall from rung to rung; null if there was none.</summary>
    public RungFall? LastFall { get; private set; }

    /// <summary>What the target declares, from memory if that is young enough.</summary>
    /// <returns>The answer that stands in the way if there is no declaration and asking again may help; else null.</returns>
    public async Task<TargetAnswer?> RefreshAsync(CancellationToken cancellation)
    {
        await reading.WaitAsync(cancellation);
        try
        {
            return IsFresh() ? null : await ReadAsync(cancellation);
        }
        finally
        {
            reading.Release();
        }
    }

    /// <summary>True if several requests may be sent as one batch: declared, and not found to be otherwise since.</summary>
    public bool TakesBatches => Capabilities?.Batch == true && !withoutBatches;

    /// <summary>Sends no more batches until the capabilities are read anew.</summary>
    public void ForgoBatches() => withoutBatches = true;

    /// <summary>Rungs to try for these resource types, the one that held before alone if there is one.</summary>
    public ImmutableArray<Rung> Rungs(IEnumerable<string> types)
    {
        var rungs = Capabilities!.Rungs(types).RemoveAll(rung => rung < target.Options.BestRung);
        return Rung is { } held && rungs.Contains(held.Rung) ? [held.Rung, .. rungs.Where(r => r > held.Rung)] : rungs;
    }

    /// <summary>Remembers that a rung held.</summary>
    /// <param name="rung">The rung.</param>
    /// <param name="fall">Write by a better rung whose answer caused the fall to it; null if there was none.</param>
    public void Remember(Rung rung, WriteResult? fall)
    {
        if (Rung?.Rung == rung)
        {
            return;
        }

        var now = clock.GetUtcNow();
        Rung = new(rung, now);
        LastFall = fall is null ? LastFall : new(fall.Rung, rung, now, RefusalText.Brief(fall.Answer));
        Save();
    }

    /// <inheritdoc/>
    public void Dispose() => reading.Dispose();

    private bool IsFresh() => Capabilities is { } known && clock.GetUtcNow() - known.ReadAt < target.Options.CapabilitiesMaxAge;

    private async Task<TargetAnswer?> ReadAsync(CancellationToken cancellation)
    {
        var answer = await target.GetAsync("metadata", cancellation);
        if (answer.Kind != AnswerKind.Answered || answer.Status is 408 or 429 or >= 500)
        {
            // An old declaration serves until a new one can be had.
            return Capabilities is null ? answer : null;
        }

        var now = clock.GetUtcNow();
        Capabilities = answer.Succeeded && answer.ResourceType == "CapabilityStatement"
            ? TargetCapabilities.Of(answer.Resource, now)
            : TargetCapabilities.Undeclared(now);
        (Rung, withoutBatches) = (null, false);
        Save();
        return null;
    }

    private void Save() => file?.Save(target.Name, new(target.Base, Capabilities, Rung, LastFall));
}
