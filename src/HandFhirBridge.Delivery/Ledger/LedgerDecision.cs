namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What a person decided about a session, kept for good.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="At">When, UTC.</param>
/// <param name="By">Who.</param>
/// <param name="Action">What was done; one of the constants of this type.</param>
/// <param name="PatientId">Id of the chart that was chosen; null where the decision is about something else.</param>
/// <param name="Reason">Why, in the person's words; may name the patient.</param>
public sealed record LedgerDecision(int Number, DateTimeOffset At, string By, string Action, string? PatientId, string Reason)
{
    /// <summary>A person put a session in line again that waited for one.</summary>
    public const string Retry = "retry";

    /// <summary>A person stopped a session that was in line.</summary>
    public const string Hold = "hold";

    /// <summary>A person chose the chart.</summary>
    public const string Resolve = "resolve";

    /// <summary>A person withdrew the session; stands with the revision that the withdrawal is.</summary>
    public const string Withdraw = "withdraw";

    /// <summary>Subject of the sign-in that the decision came under; null for the command line.</summary>
    public string? Caller { get; init; }
}
