using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Change of one task or total of one hand between two sessions.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Hand">Hand.</param>
/// <param name="Earlier">Earlier time, seconds; null if there was no plain time.</param>
/// <param name="Later">Later time, seconds; null if there was no plain time.</param>
/// <param name="Seconds">Later minus earlier; negative is faster. Null unless both are plain times.</param>
/// <param name="Error">Measurement error it was held against; null if none is set for the subject and role.</param>
/// <param name="Verdict">Null without both times and a measurement error.</param>
public sealed record SessionChange(
    string Subject, Hand Hand, decimal? Earlier, decimal? Later, decimal? Seconds, MeasurementError? Error, ChangeVerdict? Verdict);
