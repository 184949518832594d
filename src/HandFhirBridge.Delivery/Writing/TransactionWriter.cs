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
        var request = TransactionRequest.Build(bundle, rung, recorded);
        if (rung != Rung.TransactionOfConditionalCreates)
        {
            return Judge(await target.PostAsync(request, cancellation), bundle);
        }

        // Sessions of different patients share devices, and conditional creates of one thing race on most servers.
        var shared = bundle.Entries.Where(entry => entry.Type == "Device").Select(entry => entry.Condition!).ToList();
        using var turn = await target.SharedResources.EnterAsync(shared, cancellation);
        var result = Judge(await target.PostAsync(request, cancellation), bundle);
        if (result.Verdict == WriteVerdict.Stored)
        {
            turn.Exist();
        }

        return result;
    }

    private WriteResult Judge(TargetAnswer answer, SessionBundle bundle)
    {
        if (!answer.Succeeded)
        {
            return new(rung, WriteVerdict.NotStored, answer, RefusalText.Of(answer, bundle), null);
        }

        var stored = TransactionAnswer.Of(answer, bundle.Entries.Length);
        return stored switch
        {
            { IsComplete: true } => new(rung, WriteVerdict.Stored, answer, $"HTTP {answer.Status}", stored.Entries[bundle.Report.Index].Id),
            { IsUsable: true } => new(rung, WriteVerdict.StoredInPart, answer, stored.Describe(bundle), null),
            _ => new(rung, WriteVerdict.Unclear, answer, $"{answer}; {stored.Entries.Length} of {stored.Sent} entries answered", null),
        };
    }
}
