namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Arithmetic of one completed trial against its one norm.</summary>
/// <param name="Norm">The norm it was scored against.</param>
/// <param name="Z">(seconds − mean) / SD, rounded half away from zero to 2 decimals; positive is slower.</param>
/// <param name="PercentOfMean">100 × seconds / mean, rounded half away from zero to 1 decimal.</param>
/// <param name="ApproximatePercentile">Share of the norm group that is faster, in percent, if times were normally distributed; 1 decimal, from 0.1 to 99.9, beyond which a curve fitted to a small sample says nothing; always to be labelled approximate.</param>
/// <param name="Judgement">Within the norm or slow; decided on the unrounded times, not on the rounded z.</param>
public sealed record TrialScore(NormComparison Norm, decimal Z, decimal PercentOfMean, decimal ApproximatePercentile, Judgement Judgement);
