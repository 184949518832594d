using HandFhirBridge.Assessment.Problems;
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
    public async Task<AttemptResult> SendAsync(FhirTarget target, LedgerLease lease, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(lease);
        var lookup = await patients.FindAsync(target, lease.Payload.Patient, cancellation);
        if (lookup.Match is not { } patient)
        {
            return lookup.Doubt is { } doubt ? new(AttemptStatus.Held, doubt) : Attempts.Of(lookup.Failure!, "the search for the patient");
        }

        var bundle = SessionBundle.Of(lease.Payload.Bundle, lease.Payload.Patient, patient);
        var result = await SendAsync(target, lease, bundle, patient, cancellation);
        return result with { PatientId = patient.Id, PatientVersion = patient.VersionId };
    }

    private async Task<AttemptResult> SendAsync(
        FhirTarget target, LedgerLease lease, SessionBundle bundle, PatientMatch patient, CancellationToken cancellation)
    {
        var recorded = RecordedSession.Nothing;
        if (lease.InDoubt || lease.Entry.Key.Revision > 1)
        {
            recorded = await RecordSearch.FindAsync(target, bundle, patient, cancellation);
            if (recorded.Doubt is { } doubt)
            {
                return new(AttemptStatus.Held, doubt);
            }

            if (recorded.Holds(bundle))
            {
                return Attempts.Delivered("Found complete at the target; nothing was written again.", recorded.Found[bundle.Report.Index].Id);
            }

            if (recorded.Failure is { } failure && AnswerPolicy.Judge(failure, wrote: false).Status == AttemptStatus.Retry)
            {
                return Attempts.Of(failure, "the search for what is already there");
            }
        }

        return await target.Memory.RefreshAsync(cancellation) is { } silence
            ? Attempts.Of(silence, "the request for the target's capabilities")
            : await ladder.WriteAsync(target, bundle, patient, recorded, cancellation);
    }
}
