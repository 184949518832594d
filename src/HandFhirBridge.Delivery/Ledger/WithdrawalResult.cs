using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What came of a withdrawal.</summary>
/// <param name="Key">Revision it was committed as; null if it was refused, or if there is no such session and then there is no problem either.</param>
/// <param name="IsSent">True if the target is told; false if nothing of the session can be in a chart, which ends the matter.</param>
/// <param name="Problems">Why it was refused; empty if it was committed.</param>
public sealed record WithdrawalResult(SessionKey? Key, bool IsSent, ImmutableArray<Problem> Problems)
{
    /// <summary>There is no such session.</summary>
    public static WithdrawalResult NoSession { get; } = new(null, false, []);
}
