using System.Collections.Immutable;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Writes a session by the best rung that the target takes, and remembers which it was.</summary>
/// <param name="writers">One for each rung.</param>
public sealed class Ladder(IEnumerable<IRungWriter> writers)
{
    private readonly ImmutableDictionary<Rung, IRungWriter> byRung = writers.ToImmutableDictionary(w => w.Rung);

    /// <summary>Writes, going down where the target refuses the way of writing.</summary>
    /// <param name="target">Where; its capabilities have been read.</param>
    /// <param name="bundle">What.</param>
    /// <param name="patient">The chart.</param>
    /// <param name="recorded">What the target holds of it already.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public async Task<AttemptResult> WriteAsync(
        FhirTarget target, SessionBundle bundle, PatientMatch patient, RecordedSession recorded, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(recorded);
        if (!target.Memory.Capabilities!.MayBeR4)
        {
            return Held(DeliveryProblems.OtherVersion.At("BaseUrl", $"The target declares FHIR {target.Memory.Capabilities.FhirVersion}.", target.Memory.Capabilities.FhirVersion));
        }

        string? fall = null;
        WriteResult? written = null;
        foreach (var rung in Usable(target.Memory.Rungs(bundle.Types), recorded))
        {
            fall = written is null ? null : $"Rung {(int)written.Rung} was refused: {written.Text}";
            written = await byRung[rung].WriteAsync(target, bundle, recorded, cancellation);
            if (!written.MayFall)
            {
                break;
            }
        }

        return written is null
            ? Held(DeliveryProblems.NoRung.At("", "The target offers neither transactions with update as create nor with conditional create that could be used."))
            : Join(fall, await FinishAsync(target, bundle, patient, written, fall, cancellation));
    }

    /// <summary>Where the target could not be searched, only updates under our own ids are sure to make no second copy.</summary>
    private IEnumerable<Rung> Usable(IEnumerable<Rung> rungs, RecordedSession recorded) =>
        rungs.Where(rung => byRung.ContainsKey(rung) && (recorded.Failure is null || rung == Rung.TransactionOfUpdates));

    private static async Task<AttemptResult> FinishAsync(
        FhirTarget target, SessionBundle bundle, PatientMatch patient, WriteResult written, string? fall, CancellationToken cancellation)
    {
        if (written.Verdict == WriteVerdict.Stored)
        {
            target.Memory.Remember(written.Rung, fall);
            return await VerifyAsync(target, bundle, patient, written, cancellation);
        }

        if (written.Verdict == WriteVerdict.StoredInPart)
        {
            return InPart(written, written.Text);
        }

        if (written.Verdict != WriteVerdict.Unclear && written.Answer.Status is not (409 or 412))
        {
            return Attempts.Of(written);
        }

        // Look again, then decide: someone else may have written the same, or written it twice.
        var recorded = await RecordSearch.FindAsync(target, bundle, patient, cancellation);
        return recorded.Doubt is { } doubt ? new(AttemptStatus.Held, doubt) { Rung = (int)written.Rung, HttpStatus = written.Answer.Status, Answer = written.Text }
            : recorded.Holds(bundle) ? Delivered(written, $"{written.Text}; found complete afterwards.", recorded.Found[bundle.Report.Index].Id)
            : Attempts.Of(written);
    }

    private static async Task<AttemptResult> VerifyAsync(
        FhirTarget target, SessionBundle bundle, PatientMatch patient, WriteResult written, CancellationToken cancellation)
    {
        var back = await ReadBack.OfAsync(target, bundle, cancellation);
        if (back.IsComplete)
        {
            return Delivered(written, $"{written.Text}; report and {back.Found} results read back.", back.ReportId);
        }

        // Not every server includes what a report refers to, so each resource is searched for by itself.
        var recorded = await RecordSearch.FindAsync(target, bundle, patient, cancellation);
        if (recorded.Doubt is { } doubt)
        {
            return new(AttemptStatus.Held, doubt) { Rung = (int)written.Rung, HttpStatus = written.Answer.Status };
        }

        if (recorded.Holds(bundle))
        {
            return Delivered(written, $"{written.Text}; all {recorded.Found.Count} resources found afterwards.", recorded.Found[bundle.Report.Index].Id);
        }

        if (recorded.Failure is not { } failure)
        {
            return InPart(written, $"All entries were confirmed, but not found afterwards: {recorded.Missing(bundle)}");
        }

        return AnswerPolicy.Judge(failure, wrote: false).Status == AttemptStatus.Failed
            ? Delivered(written, $"{written.Text}; the target confirmed every resource but does not let them be searched ({failure}).", written.ReportId)
            : Attempts.Of(failure, "the search for what was written") with { Status = AttemptStatus.Unknown, Rung = (int)written.Rung };
    }

    private static AttemptResult Held(Assessment.Problems.Problem problem) => new(AttemptStatus.Held, problem);

    private static AttemptResult Delivered(WriteResult written, string answer, string? reportId) =>
        Attempts.Delivered(answer, reportId ?? written.ReportId) with { Rung = (int)written.Rung, HttpStatus = written.Answer.Status };

    private static AttemptResult InPart(WriteResult written, string text) =>
        new(AttemptStatus.Unknown, DeliveryProblems.StoredInPart.At("", $"{DeliveryProblems.StoredInPart.Title} (HTTP {written.Answer.Status})."))
        {
            Rung = (int)written.Rung,
            HttpStatus = written.Answer.Status,
            Answer = text,
        };

    private static AttemptResult Join(string? fall, AttemptResult result) =>
        fall is null ? result : result with { Answer = $"{fall}. {result.Answer}" };
}
