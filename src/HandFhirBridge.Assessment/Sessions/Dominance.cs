namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Handedness and what it was concluded from.</summary>
/// <param name="Handedness">Left, right or ambidextrous.</param>
/// <param name="HowKnown">Stated, observed or by inventory.</param>
/// <param name="LateralityQuotient">−100 (all left) to +100 (all right), Oldfield RC, Neuropsychologia 1971;9:97-113; null if not measured.</param>
/// <param name="TestedAsDominant">The hand whose role is dominant in this session. Equals the handedness unless ambidextrous, where the therapist chooses it.</param>
public sealed record Dominance(Handedness Handedness, DominanceSource HowKnown, decimal? LateralityQuotient, Hand TestedAsDominant)
{
    /// <summary>Role of <paramref name="hand"/> in this session.</summary>
    public HandRole RoleOf(Hand hand) => hand == TestedAsDominant ? HandRole.Dominant : HandRole.NonDominant;
}
