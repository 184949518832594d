namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>How large a change of one person must be to be more than measurement error.</summary>
/// <param name="Task">Task it holds for.</param>
/// <param name="HandRole"><c>dominant</c> or <c>non-dominant</c>; null holds for both.</param>
/// <param name="Seconds">Minimal detectable change.</param>
/// <param name="Source">Population and publication.</param>
public sealed record ChangeThreshold(string Task, string? HandRole, decimal Seconds, string Source);
