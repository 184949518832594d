using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Change of one task or total of one hand between two sessions.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Hand">Hand.</param>
/// <param name="Earlier">Earlier time, seconds; null if there was no plain time.</param>
/// <param name="Later">Later time, seconds; null if there was no plain time.</param>
/// <param name="Seconds">Later minus earlier; negative is faster. Null unless both are plain times.</param>
/// <param name="Error">Measurement error it was held against; null if there is no verdict.</param>
/// <param name="Verdict">What the change says beside the measurement error; null exactly when <paramref name="WhyNoVerdict"/> is set.</param>
/// <param name="WhyNoVerdict">Why there is no verdict; null if there is one.</param>
public sealed record SessionChange(
    string Subject,
    Hand Hand,
    decimal? Earlier,
    decimal? Later,
    decimal? Seconds,
    MeasurementError? Error,
    ChangeVerdict? Verdict,
    NoVerdict? WhyNoVerdict);
