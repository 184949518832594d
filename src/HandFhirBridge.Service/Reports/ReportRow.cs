using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Reports;

/// <summary>One trial in a report.</summary>
/// <param name="Task">Task id.</param>
/// <param name="Title">Task in plain words.</param>
/// <param name="Hand">Hand.</param>
/// <param name="Role">Its role.</param>
/// <param name="Outcome">How the trial ended.</param>
/// <param name="Seconds">Time as entered; for a trial stopped at the cap the bound; null if there is no time.</param>
/// <param name="Norms">Norms shown: mean, SD, ages, set, evidence.</param>
/// <param name="Z">z score, positive is slower; null if not judged.</param>
/// <param name="PercentOfMean">Percent of the norm mean; null if not judged.</param>
/// <param name="ApproximatePercentile">Approximate percentile, from a normal distribution; null if not judged.</param>
/// <param name="Judgement">Within the norm or slow; null if not judged.</param>
/// <param name="WhyNotJudged">Why not; null if judged.</param>
/// <param name="Departures">Departures from the standard.</param>
/// <param name="Reason">Reason of a trial that was not completed.</param>
/// <param name="Note">Therapist's note.</param>
public sealed record ReportRow(
    string Task,
    string Title,
    Hand Hand,
    HandRole Role,
    TrialOutcome Outcome,
    decimal? Seconds,
    ImmutableArray<ReportNorm> Norms,
    decimal? Z,
    decimal? PercentOfMean,
    decimal? ApproximatePercentile,
    Judgement? Judgement,
    NoJudgement? WhyNotJudged,
    ImmutableArray<string> Departures,
    string? Reason,
    string? Note);
