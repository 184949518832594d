using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>What a write came to, once what the target keeps has been read back and compared.</summary>
/// <param name="target">Where.</param>
/// <param name="bundle">What was written.</param>
/// <param name="letStand">True if a person has seen the differences and lets them stand.</param>
internal sealed class Confirmation(FhirTarget target, SessionBundle bundle, bool letStand)
{
    /// <summary>After an answer that every resource is stored.</summary>
    public async Task<AttemptResult> OfStoredAsync(WriteResult written, CancellationToken cancellation)
    {
        var back = await ReadBack.OfAsync(target, bundle, written.Ids, cancellation);
        if (back.IsComplete)
        {
            return Delivered(written, $"{written.Text}; {back.Found.Count} resources read back", back.Found);
        }

        // Not every server includes what a report refers to, so each resource is searched for by itself.
        var recorded = await RecordSearch.FindAsync(target, bundle, cancellation);
        if (recorded.Doubt is { } doubt)
        {
            return Held(written, doubt);
        }

        if (recorded.Holds(bundle))
        {
            return Delivered(written, $"{written.Text}; all {recorded.Found.Count} resources found afterwards", recorded.Found);
        }

        if (recorded.Failure is not { } failure)
        {
            return InPart(written, $"All entries were confirmed, but not found afterwards: {recorded.Missing(bundle)}");
        }

        return AnswerPolicy.Judge(failure, wrote: false).Status == AttemptStatus.Failed
            ? Attempts.Delivered($"{written.Text}; the target confirmed every resource but does not let them be searched ({failure}).", ReportId(written))
                with { Rung = (int)written.Rung, HttpStatus = written.Answer.Status }
            : Attempts.Of(failure, "the search for what was written") with { Status = AttemptStatus.Unknown, Rung = (int)written.Rung };
    }

    /// <summary>After an answer that leaves open what is stored: someone else may have written the same, or written it twice.</summary>
    public async Task<AttemptResult> OfUnclearAsync(WriteResult written, CancellationToken cancellation)
    {
        var recorded = await RecordSearch.FindAsync(target, bundle, cancellation);
        return recorded.Doubt is { } doubt ? Held(written, doubt)
            : recorded.Holds(bundle) ? Delivered(written, $"{written.Text}; found complete afterwards", recorded.Found)
            : Attempts.Of(written);
    }

    /// <summary>Where a search before writing found everything.</summary>
    public AttemptResult OfFound(RecordedSession recorded) =>
        Compare(Attempts.Delivered("Found complete at the target; nothing was written again", recorded.Found[bundle.Report.Index].Id), recorded.Found);

    /// <summary>A write of which a part is there.</summary>
    public static AttemptResult InPart(WriteResult written, string text) =>
        new(AttemptStatus.Unknown, DeliveryProblems.StoredInPart.At("", $"{DeliveryProblems.StoredInPart.Title} (HTTP {written.Answer.Status})."))
        {
            Rung = (int)written.Rung,
            HttpStatus = written.Answer.Status,
            Answer = text,
        };

    /// <summary>A write that a person must look at.</summary>
    public static AttemptResult Held(WriteResult written, Problem doubt) =>
        new(AttemptStatus.Held, doubt) { Rung = (int)written.Rung, HttpStatus = written.Answer.Status, Answer = written.Text };

    private AttemptResult Delivered(WriteResult written, string answer, ImmutableDictionary<int, RecordedEntry> kept) => Compare(
        Attempts.Delivered(answer, kept.GetValueOrDefault(bundle.Report.Index)?.Id ?? ReportId(written))
            with { Rung = (int)written.Rung, HttpStatus = written.Answer.Status },
        kept);

    private AttemptResult Compare(AttemptResult delivered, ImmutableDictionary<int, RecordedEntry> kept)
    {
        var comparison = SessionComparison.Of(bundle, kept);
        var told = delivered with { Answer = $"{delivered.Answer}. {comparison}" };
        if (comparison.Differences.IsEmpty)
        {
            return told;
        }

        var problem = DeliveryProblems.KeptDifferently.At("", $"{DeliveryProblems.KeptDifferently.Title}: {comparison.Differences.Length} elements differ.");
        return told with
        {
            Status = target.Options.OnDifference == DifferenceAction.Hold && !letStand ? AttemptStatus.Held : AttemptStatus.Delivered,
            Problem = problem,
        };
    }

    private string? ReportId(WriteResult written) => written.Ids.GetValueOrDefault(bundle.Report.Index);
}
