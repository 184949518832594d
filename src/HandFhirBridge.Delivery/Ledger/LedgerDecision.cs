namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What a person decided about a session, kept for good.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="At">When, UTC.</param>
/// <param name="By">Who.</param>
/// <param name="Action">What was done; <see cref="Resolve"/> is the only one yet.</param>
/// <param name="PatientId">Id of the chart that was chosen; null where the decision is about something else.</param>
/// <param name="Reason">Why, in the person's words; may name the patient.</param>
public sealed record LedgerDecision(int Number, DateTimeOffset At, string By, string Action, string? PatientId, string Reason)
{
    /// <summary>A person chose the chart.</summary>
    public const string Resolve = "resolve";
}
