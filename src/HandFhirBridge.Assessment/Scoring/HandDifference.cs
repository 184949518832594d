namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Difference between the hands in one task or total.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Seconds">Non-dominant minus dominant, in seconds; positive when the dominant hand is faster. Null unless both are completed.</param>
public sealed record HandDifference(string Subject, decimal? Seconds);
