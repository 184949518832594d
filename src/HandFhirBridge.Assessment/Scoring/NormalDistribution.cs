namespace HandFhirBridge.Assessment.Scoring;

/// <summary>The normal distribution, for approximate percentiles.</summary>
public static class NormalDistribution
{
    // Coefficients of Abramowitz and Stegun, Handbook of Mathematical Functions (1964), formula 26.2.17; |error| < 7.5e-8.
    private const double P = 0.2316419;
    private static readonly double[] B = [0.319381530, -0.356563782, 1.781477937, -1.821255978, 1.330274429];

    /// <summary>Share of a standard normal population below <paramref name="z"/>, from 0 to 1.</summary>
    public static double Below(double z)
    {
        var t = 1 / (1 + (P * Math.Abs(z)));
        var tail = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * B.Reverse().Aggregate(0.0, (sum, b) => (sum + b) * t);
        return z >= 0 ? 1 - tail : tail;
    }
}
