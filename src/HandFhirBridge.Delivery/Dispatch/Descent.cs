using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>One attempt's way down the ladder: what was tried, what was answered, and what lies at the target because of it.</summary>
internal sealed class Descent(FhirTarget target, SessionBundle whole, bool letStand)
{
    private readonly List<WriteResult> falls = [];
    private readonly PartialWrite partial = new();
    private readonly FormerForm former = new(target, whole);
    private SessionBundle? form;
    private bool otherForm;
    private WriteResult? last;

    /// <summary>False if the last answer ends the matter for this rung.</summary>
    public bool MayTry(Rung rung) => last is null || last.MayFallTo(rung);

    /// <summary>Tries a rung.</summary>
    /// <returns>The end of the attempt; null if another rung may be tried.</returns>
    public async Task<AttemptResult?> TryAsync(IRungWriter writer, bool look, CancellationToken cancellation)
    {
        if (look && !await former.SuitsAsync(writer.Rung, cancellation))
        {
            otherForm = true;
            return null;
        }

        if (former.Doubt is { } unsure)
        {
            return Tell(new(AttemptStatus.Held, unsure));
        }

        if (former.Failure is { } silence)
        {
            return Tell(Silent(silence));
        }

        var next = SessionForm.Of(whole, writer.Rung, target.Options.DocumentType);
        var recorded = RecordedSession.Nothing;
        if (look || partial.Any || last?.Verdict == WriteVerdict.StoredInPart)
        {
            recorded = await RecordSearch.FindAsync(target, next, cancellation);
            if (Known(next, recorded) is { } known)
            {
                return known;
            }

            // Where the target could not be searched, only updates under our own ids are sure to make no second copy.
            if (recorded.Failure is not null && writer.Rung != Rung.TransactionOfUpdates
                && (writer.Rung < Rung.SingleWrites || !target.Memory.Capabilities!.DeclaresUpdateCreate(next.Types)))
            {
                return null;
            }
        }

        if (last is not null)
        {
            falls.Add(last);
            NotePart(recorded, next);
        }

        (form, last) = (next, await writer.WriteAsync(target, next, recorded, cancellation));
        partial.Note(next, last.Ids);
        return last.Doubt is { } doubt ? Tell(Confirmation.Held(last, doubt)) : null;
    }

    /// <summary>Ends the attempt by what was answered last.</summary>
    public async Task<AttemptResult> EndAsync(CancellationToken cancellation)
    {
        if (last is null)
        {
            return new(AttemptStatus.Held, otherForm
                ? DeliveryProblems.OtherForm.At("", $"{DeliveryProblems.OtherForm.Title}.")
                : DeliveryProblems.NoRung.At("", "The target offers no way of writing that could be used."));
        }

        var confirmation = new Confirmation(target, form!, letStand);
        return Tell(last switch
        {
            { Verdict: WriteVerdict.Stored } => await StoredAsync(confirmation, cancellation),
            { Verdict: WriteVerdict.StoredInPart } => Confirmation.InPart(last, last.Text),
            { Verdict: WriteVerdict.Unclear } or { Answer.Status: 409 or 412 } => await confirmation.OfUnclearAsync(last, cancellation),
            _ => await RefusedAsync(cancellation),
        });
    }

    private AttemptResult? Known(SessionBundle next, RecordedSession recorded)
    {
        if (recorded.Doubt is { } doubt)
        {
            return Tell(new(AttemptStatus.Held, doubt));
        }

        // A document's predecessors may still have to be marked superseded.
        if (recorded.Holds(next) && !(next.IsDocument && next.Revision > 1) && !partial.Any && last is null)
        {
            return new Confirmation(target, next, letStand).OfFound(recorded);
        }

        return recorded.Failure is { } failure && AnswerPolicy.Judge(failure, wrote: false).Status == AttemptStatus.Retry ? Tell(Silent(failure)) : null;
    }

    private AttemptResult Silent(TargetAnswer answer) =>
        Attempts.Of(answer, "the search for what is already there") with { Status = partial.Any || last is not null ? AttemptStatus.Unknown : AttemptStatus.Retry };

    /// <summary>After a transaction stored in part, what is found is what it stored.</summary>
    private void NotePart(RecordedSession recorded, SessionBundle next)
    {
        if (last!.Verdict == WriteVerdict.StoredInPart)
        {
            partial.Note(next, recorded.Found.ToImmutableDictionary(f => f.Key, f => f.Value.Id));
        }
    }

    private async Task<AttemptResult> StoredAsync(Confirmation confirmation, CancellationToken cancellation)
    {
        // A session finished singly, or kept in its old form, says nothing of how the next is written.
        if (!otherForm && falls.TrueForAll(fall => fall.Verdict == WriteVerdict.NotStored))
        {
            target.Memory.Remember(last!.Rung, falls.Count == 0 ? null : falls[^1]);
        }

        partial.Keep(form!, last!.Ids);
        var left = partial.Any && whole.Revision == 1 ? await partial.TakeBackAsync(target, cancellation) : "";
        var result = await confirmation.OfStoredAsync(last, cancellation);
        return left.Length == 0 ? result : result with { Answer = $"{result.Answer} Left over from a better rung and not marked entered-in-error: {left}." };
    }

    private async Task<AttemptResult> RefusedAsync(CancellationToken cancellation)
    {
        var result = Attempts.Of(last!);
        if (!partial.Any)
        {
            return result;
        }

        // Something is there already: the next attempt looks before it writes.
        if (result.Status != AttemptStatus.Failed)
        {
            return result with { Status = AttemptStatus.Unknown };
        }

        // What a correction has replaced cannot be brought back by status alone; it is tried again instead.
        var left = whole.Revision > 1 ? "a part of the correction" : await partial.TakeBackAsync(target, cancellation);
        return left.Length > 0
            ? Confirmation.InPart(last!, $"{result.Answer}. Stored and not taken back: {left}")
            : result with { Problem = DeliveryProblems.TakenBack.At("", $"{DeliveryProblems.TakenBack.Title} (HTTP {last!.Answer.Status}).") };
    }

    private AttemptResult Tell(AttemptResult result) => falls.Count == 0
        ? result
        : result with { Answer = string.Concat(falls.Select(fall =>
            $"Rung {(int)fall.Rung} was {(fall.Verdict == WriteVerdict.StoredInPart ? "stored in part" : "refused")}: {fall.Text}. ")) + result.Answer };
}
