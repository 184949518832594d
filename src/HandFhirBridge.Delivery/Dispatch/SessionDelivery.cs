using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>One attempt: find the chart, look for what is there already, write, read back.</summary>
/// <param name="patients">Finds the chart.</param>
/// <param name="ladder">Writes, by rung.</param>
public sealed class SessionDelivery(PatientFinder patients, Ladder ladder)
{
    /// <summary>Makes the attempt. The result does not yet say when to try again, unless the target did.</summary>
    /// <param name="target">Where.</param>
    /// <param name="lease">What.</param>
    /// <param name="letStand">True if a person has seen that the target keeps something other than was sent, and lets it stand.</param>
    /// <param name="cancellation">Ends the attempt.</param>
    public async Task<AttemptResult> SendAsync(FhirTarget target, LedgerLease lease, bool letStand, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(lease);
        var lookup = await patients.FindAsync(target, lease.Payload.Patient, lease.Choice, cancellation);
        if (lookup.Match is not { } patient)
        {
            return lookup.Doubt is { } doubt
                ? new(AttemptStatus.Held, doubt) { Answer = await ProposeAsync(target, lease, cancellation) }
                : Attempts.Of(lookup.Failure!, "the search for the patient");
        }

        var bundle = DroppedResults.AddTo(SessionBundle.Of(lease.Payload.Bundle, lease.Payload.Patient, patient), lease.Earlier);
        var result = await target.Memory.RefreshAsync(cancellation) is { } silence
            ? Attempts.Of(silence, "the request for the target's capabilities")
            : await ladder.WriteAsync(target, bundle, lease.InDoubt || lease.Entry.Key.Revision > 1, letStand, cancellation);
        return result with { PatientId = patient.Id, PatientVersion = patient.VersionId };
    }

    private static async Task<string?> ProposeAsync(FhirTarget target, LedgerLease lease, CancellationToken cancellation) =>
        target.Options.ProposePatients ? await PatientProposals.AskAsync(target, lease.Payload.Patient, cancellation) : null;
}
