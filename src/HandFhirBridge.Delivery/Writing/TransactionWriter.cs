using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Writes a session as one transaction (rungs 1 and 2).</summary>
/// <param name="rung">Which of the two.</param>
public sealed class TransactionWriter(Rung rung) : IRungWriter
{
    /// <inheritdoc/>
    public Rung Rung => rung;

    /// <inheritdoc/>
    public async Task<WriteResult> WriteAsync(
        FhirTarget target, SessionBundle bundle, RecordedSession recorded, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(recorded);
        var request = TransactionRequest.Build(bundle, rung, recorded);
        if (rung != Rung.TransactionOfConditionalCreates)
        {
            return Judge(await target.PostAsync(request, cancellation), bundle, recorded);
        }

        // Sessions of different patients share devices, and conditional creates of one thing race on most servers.
        var shared = bundle.Entries.Where(entry => entry.Type == "Device").Select(entry => entry.Condition!).ToList();
        await using var turn = await target.SharedResources.EnterAsync(shared, cancellation);
        var result = Judge(await target.PostAsync(request, cancellation), bundle, recorded);
        if (result.Verdict == WriteVerdict.Stored)
        {
            turn.Exist();
        }

        return result;
    }

    private WriteResult Judge(TargetAnswer answer, SessionBundle bundle, RecordedSession recorded)
    {
        if (!answer.Succeeded)
        {
            return new(rung, WriteVerdict.NotStored, answer, RefusalText.Of(answer, bundle)) { IsAboutContent = RefusalText.IsAboutContent(answer, bundle) };
        }

        var stored = TransactionAnswer.Of(answer, bundle.Entries.Length);
        return stored switch
        {
            { IsComplete: true } => new(rung, WriteVerdict.Stored, answer, $"HTTP {answer.Status}") { Ids = Ids(stored, bundle, recorded) },
            { IsUsable: true } => new(rung, WriteVerdict.StoredInPart, answer, stored.Describe(bundle)),
            _ => new(rung, WriteVerdict.Unclear, answer, $"{answer}; {stored.Entries.Length} of {stored.Sent} entries answered"),
        };
    }

    /// <summary>As the target says; where it says nothing of an update, the id that was written to.</summary>
    private ImmutableDictionary<int, string> Ids(TransactionAnswer stored, SessionBundle bundle, RecordedSession recorded) => bundle.Entries
        .Select(entry => (entry.Index, Id: stored.Entries[entry.Index].Id
            ?? recorded.Found.GetValueOrDefault(entry.Index)?.Id
            ?? (rung == Rung.TransactionOfUpdates ? entry.Id : null)))
        .Where(pair => pair.Id is not null)
        .ToImmutableDictionary(pair => pair.Index, pair => pair.Id!);
}
