namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Who decides something about a session, and why; kept for good, together with what follows from it.</summary>
/// <param name="By">Who, as the person names themselves.</param>
/// <param name="Reason">Why, in the person's words; may name the patient.</param>
/// <param name="At">When, UTC.</param>
public sealed record PersonDecision(string By, string Reason, DateTimeOffset At)
{
    /// <summary>Subject of the sign-in that the decision came under; null for the command line.</summary>
    public string? Caller { get; init; }
}
