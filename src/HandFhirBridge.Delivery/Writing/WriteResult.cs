using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What came of writing a session by one rung.</summary>
/// <param name="Rung">The rung.</param>
/// <param name="Verdict">What the answer says.</param>
/// <param name="Answer">The target's answer, or that there was none.</param>
/// <param name="Text">The answer in words; may quote values of the session.</param>
/// <param name="ReportId">Id of the report at the target; null if the answer does not say.</param>
public sealed record WriteResult(Rung Rung, WriteVerdict Verdict, TargetAnswer Answer, string Text, string? ReportId)
{
    /// <summary>True if the target refused for good, so that nothing is stored and another rung may be tried.</summary>
    public bool MayFall => Verdict == WriteVerdict.NotStored && Answer.Status is 400 or 404 or 405 or 415 or 422 or 501;
}
