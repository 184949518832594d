namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>Change of a group measured twice.</summary>
/// <param name="N">Pairs.</param>
/// <param name="EarlierMean">Mean of the first measurement.</param>
/// <param name="EarlierStandardDeviation">SD of the first measurement, n − 1 in the denominator.</param>
/// <param name="LaterMean">Mean of the second measurement.</param>
/// <param name="LaterStandardDeviation">SD of the second measurement, n − 1.</param>
public sealed record GroupChange(
    int N, double EarlierMean, double EarlierStandardDeviation, double LaterMean, double LaterStandardDeviation)
{
    /// <summary>Later mean minus earlier mean.</summary>
    public double Change => LaterMean - EarlierMean;

    /// <summary>Change over the SD of the first measurement; null where that SD is 0.</summary>
    public double? EffectSize => EarlierStandardDeviation > 0 ? Change / EarlierStandardDeviation : null;

    /// <summary>Describes pairs: the same persons in the same order.</summary>
    /// <exception cref="ArgumentException">The lists differ in length, or hold fewer than two values.</exception>
    public static GroupChange Of(IReadOnlyList<double> earlier, IReadOnlyList<double> later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        if (earlier.Count != later.Count || earlier.Count < 2)
        {
            throw new ArgumentException("At least two pairs are needed, and each person must have both values.", nameof(later));
        }

        return new(
            earlier.Count,
            MathNet.Numerics.Statistics.Statistics.Mean(earlier),
            MathNet.Numerics.Statistics.Statistics.StandardDeviation(earlier),
            MathNet.Numerics.Statistics.Statistics.Mean(later),
            MathNet.Numerics.Statistics.Statistics.StandardDeviation(later));
    }
}
