using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Reports;

/// <summary>Change of one task or total since an earlier session.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Hand">Hand.</param>
/// <param name="EarlierSessionId">Session compared with.</param>
/// <param name="EarlierStartedAt">When that session was given.</param>
/// <param name="EarlierSeconds">Earlier time, seconds; null if there was no plain time.</param>
/// <param name="Seconds">This time minus the earlier one; negative is faster. Null unless both are plain times.</param>
/// <param name="Judgement">What the change says beside the measurement error; null where there is no verdict.</param>
/// <param name="Error">Measurement error it was held against; null where there is no verdict.</param>
/// <param name="WhyNoVerdict">Why there is no verdict; null if there is one.</param>
/// <param name="Verdict">Beyond measurement error or not, with the threshold and its source; or why there is none; null where no measurement error is set or there is no plain time.</param>
public sealed record ReportChange(
    string Subject,
    Hand Hand,
    string EarlierSessionId,
    DateTimeOffset EarlierStartedAt,
    decimal? EarlierSeconds,
    decimal? Seconds,
    ChangeVerdict? Judgement,
    ReportError? Error,
    NoVerdict? WhyNoVerdict,
    string? Verdict);
