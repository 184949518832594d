namespace HandFhirBridge.Delivery.Ledger;

/// <summary>One attempt, kept for good.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="StartedAt">Begin, UTC.</param>
/// <param name="Duration">How long it took; zero if it was interrupted.</param>
/// <param name="Target">Name of the target.</param>
/// <param name="Rung">Rung of the ladder that was written with; null if nothing was sent.</param>
/// <param name="Status">How it ended.</param>
/// <param name="HttpStatus">The target's last answer; null if there was none.</param>
/// <param name="ProblemCode">Code of what went wrong; null if nothing did.</param>
/// <param name="Answer">What the target said of it and what was done, at most 2,000 characters; may name values of the session. Null if there is nothing to add.</param>
public sealed record DeliveryAttempt(
    int Number,
    DateTimeOffset StartedAt,
    TimeSpan Duration,
    string Target,
    int? Rung,
    AttemptStatus Status,
    int? HttpStatus,
    string? ProblemCode,
    string? Answer);
