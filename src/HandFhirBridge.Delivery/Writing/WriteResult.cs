using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What came of writing a session by one rung.</summary>
/// <param name="Rung">The rung.</param>
/// <param name="Verdict">What the answer says.</param>
/// <param name="Answer">The target's last answer, or that there was none.</param>
/// <param name="Text">The answer in words; may quote values of the session.</param>
public sealed record WriteResult(Rung Rung, WriteVerdict Verdict, TargetAnswer Answer, string Text)
{
    /// <summary>Ids at the target by 0-based entry, of what is known to lie there; empty if nothing is known.</summary>
    public ImmutableDictionary<int, string> Ids { get; init; } = ImmutableDictionary<int, string>.Empty;

    /// <summary>Why a person must decide; null if nobody needs to.</summary>
    public Problem? Doubt { get; init; }

    /// <summary>True if the answer is one to a search, so that the request it answers changed nothing.</summary>
    public bool WasReading { get; init; }

    /// <summary>True if the answer finds fault with the content of a resource, which another way of writing would not mend.</summary>
    public bool IsAboutContent { get; init; }

    /// <summary>True if another rung may be tried, because the target refused the way of writing.</summary>
    /// <param name="next">The rung.</param>
    public bool MayFallTo(Rung next) => Verdict switch
    {
        WriteVerdict.StoredInPart => next >= Rung.SingleWrites,
        WriteVerdict.NotStored when next <= Rung.TransactionOfConditionalCreates => IsRefusal,
        WriteVerdict.NotStored => (IsRefusal || Answer.Status == 413 || (Answer.Status == 403 && Rung >= Rung.SingleWrites)) && !IsAboutContent && !WasReading,
        _ => false,
    };

    private bool IsRefusal => Answer.Status is 400 or 404 or 405 or 415 or 422 or 501;
}
