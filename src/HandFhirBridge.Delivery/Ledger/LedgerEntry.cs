namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What may be shown of an accepted session without unsealing it. Holds no patient data but the chart's resource id.</summary>
/// <param name="Key">Which session.</param>
/// <param name="State">Where it stands.</param>
/// <param name="ContentHash">Hash of its document.</param>
/// <param name="Target">Name of the target it goes to.</param>
/// <param name="AcceptedAt">When it was committed, UTC.</param>
/// <param name="NextAttemptAt">When it is due; null if no attempt is to come by itself.</param>
/// <param name="Attempts">Attempts begun.</param>
/// <param name="ProblemCode">Code of what stands in the way, or of what to know of a delivered session; null if there is neither.</param>
/// <param name="Reason">One sentence to the code; null without one.</param>
/// <param name="PatientId">Id of the chart at the target; null until it was found.</param>
/// <param name="PatientVersion">Version of the chart that was compared; null if the target gives none.</param>
/// <param name="ReportId">Id of the report at the target; null until delivered.</param>
/// <param name="DeliveredAt">When the target was seen to keep it, UTC; null before.</param>
public sealed record LedgerEntry(
    SessionKey Key,
    DeliveryState State,
    string ContentHash,
    string Target,
    DateTimeOffset AcceptedAt,
    DateTimeOffset? NextAttemptAt,
    int Attempts,
    string? ProblemCode,
    string? Reason,
    string? PatientId,
    string? PatientVersion,
    string? ReportId,
    DateTimeOffset? DeliveredAt)
{
    /// <summary>
    /// True if this revision withdraws the session. It is delivered like any other, or <see cref="DeliveryState.Superseded"/>
    /// from the start where nothing of the session can be in a chart.
    /// </summary>
    public bool IsWithdrawal { get; init; }
}
