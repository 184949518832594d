using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Charts;

/// <summary>What one session found for one task or total with one hand.</summary>
/// <param name="Session">0-based place of the session in the course.</param>
/// <param name="Kind">A time, a bound, or none.</param>
/// <param name="Outcome">How it ended, in words.</param>
/// <param name="Seconds">Seconds as the Observation has them; for a bound the cap; null if there is no time. Never zero for a missing one.</param>
/// <param name="Role">The hand's role in that session.</param>
/// <param name="Norms">Norms that apply: one, both where the sex is unknown, or none.</param>
/// <param name="NormMean">Sum of the task means for a total, which has no SD; null for a task.</param>
/// <param name="Z">z score, positive is slower; null if not judged.</param>
/// <param name="PercentOfMean">Percent of the norm mean; null if not judged.</param>
/// <param name="Judgement">Within the norm or slow; null if not judged.</param>
/// <param name="Break">Why this point is not to be compared with those before it; null if it may be.</param>
/// <param name="Change">Seconds since the first time of the same unbroken run; null for that first time and where there is no time.</param>
/// <param name="MinimalDetectableChange">Threshold the change was held against, seconds; null if none is set or it does not apply.</param>
/// <param name="Verdict">What the change says beside it; null without a threshold.</param>
/// <param name="Departures">Departures from the standard in this trial.</param>
/// <param name="Reason">Why there is no time, as noted; null if there is one or nothing was noted.</param>
/// <param name="Observation"><c>Observation/id</c> on the server.</param>
public sealed record CoursePoint(
    int Session,
    PointKind Kind,
    string Outcome,
    decimal? Seconds,
    HandRole Role,
    ImmutableArray<ReportNorm> Norms,
    decimal? NormMean,
    decimal? Z,
    decimal? PercentOfMean,
    Judgement? Judgement,
    string? Break,
    decimal? Change,
    decimal? MinimalDetectableChange,
    ChangeVerdict? Verdict,
    ImmutableArray<string> Departures,
    string? Reason,
    string? Observation);
