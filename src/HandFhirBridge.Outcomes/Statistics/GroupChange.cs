namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>
/// Change of a group measured twice, in the unit of the measurement. It describes; it tests no hypothesis and judges no single patient.
/// </summary>
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

    /// <summary>
    /// Effect size: change over the SD of the first measurement (Kazis LE, Anderson JJ, Meenan RF. Med Care 1989;27:S178-S189, from
    /// memory); for times, negative is faster. Null where that SD is 0.
    /// </summary>
    public double? EffectSize => EarlierStandardDeviation > 0 ? Change / EarlierStandardDeviation : null;

    /// <summary>SD of the single differences, n − 1; null if it is not known.</summary>
    public double? ChangeStandardDeviation { get; init; }

    /// <summary>
    /// Standardized response mean: change over the SD of the single differences (Liang MH, Fossel AH, Larson MG. Med Care 1990;28:632-642,
    /// from memory). Null where that SD is 0 or not known.
    /// </summary>
    public double? StandardizedResponseMean => ChangeStandardDeviation > 0 ? Change / ChangeStandardDeviation : null;

    /// <summary>Describes pairs: the same persons in the same order. Whoever was measured once only is left out by the caller.</summary>
    /// <exception cref="ArgumentException">The lists differ in length, hold fewer than two values, or one that is not a number.</exception>
    public static GroupChange Of(IReadOnlyList<double> earlier, IReadOnlyList<double> later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        if (earlier.Count != later.Count || earlier.Count < 2)
        {
            throw new ArgumentException("At least two pairs are needed, and each person must have both values.", nameof(later));
        }

        if (!earlier.Concat(later).All(double.IsFinite))
        {
            throw new ArgumentException("A missing value is left out with its pair; it is no number.", nameof(later));
        }

        return new(
            earlier.Count,
            MathNet.Numerics.Statistics.Statistics.Mean(earlier),
            MathNet.Numerics.Statistics.Statistics.StandardDeviation(earlier),
            MathNet.Numerics.Statistics.Statistics.Mean(later),
            MathNet.Numerics.Statistics.Statistics.StandardDeviation(later))
        {
            ChangeStandardDeviation = MathNet.Numerics.Statistics.Statistics.StandardDeviation(later.Zip(earlier, (after, before) => after - before)),
        };
    }
}
