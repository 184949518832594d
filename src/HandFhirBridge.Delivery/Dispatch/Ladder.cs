using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Writes a session by the best rung that the target takes, and remembers which it was.</summary>
/// <param name="writers">One for each rung.</param>
public sealed class Ladder(IEnumerable<IRungWriter> writers)
{
    private readonly ImmutableDictionary<Rung, IRungWriter> byRung = writers.ToImmutableDictionary(w => w.Rung);

    /// <summary>A ladder with all rungs.</summary>
    public static Ladder Whole() => new(
    [
        new TransactionWriter(Rung.TransactionOfUpdates),
        new TransactionWriter(Rung.TransactionOfConditionalCreates),
        new SingleWriter(Rung.SingleWrites),
        new SingleWriter(Rung.ObservationsAndDocument),
        new SingleWriter(Rung.DocumentAlone),
    ]);

    /// <summary>Writes, going down where the target refuses the way of writing.</summary>
    /// <param name="target">Where; its capabilities have been read.</param>
    /// <param name="bundle">What.</param>
    /// <param name="look">True to search before writing, because some of it may be there.</param>
    /// <param name="letStand">True if a person has seen that the target keeps something other than was sent, and lets it stand.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public async Task<AttemptResult> WriteAsync(
        FhirTarget target, SessionBundle bundle, bool look, bool letStand, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(bundle);
        if (!target.Memory.Capabilities!.MayBeR4)
        {
            return new(AttemptStatus.Held, DeliveryProblems.OtherVersion.At(
                "BaseUrl", $"The target declares FHIR {target.Memory.Capabilities.FhirVersion}.", target.Memory.Capabilities.FhirVersion));
        }

        var descent = new Descent(target, bundle, letStand);
        foreach (var rung in target.Memory.Rungs(bundle.Types).Where(byRung.ContainsKey).Where(descent.MayTry))
        {
            if (await descent.TryAsync(byRung[rung], look, cancellation) is { } end)
            {
                return end;
            }
        }

        return await descent.EndAsync(cancellation);
    }
}
