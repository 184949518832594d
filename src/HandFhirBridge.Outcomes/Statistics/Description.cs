using MathNet.Numerics.Statistics;

namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>Plain description of a sample, in the unit of the measurement.</summary>
/// <param name="N">Size.</param>
/// <param name="Mean">Arithmetic mean.</param>
/// <param name="StandardDeviation">SD with n − 1 in the denominator; null for one value.</param>
/// <param name="Median">Median.</param>
/// <param name="LowerQuartile">First quartile, linear between order statistics (definition 7 of Hyndman RJ, Fan Y. Am Stat 1996;50:361-365; R's default).</param>
/// <param name="UpperQuartile">Third quartile, the same definition.</param>
public sealed record Description(int N, double Mean, double? StandardDeviation, double Median, double LowerQuartile, double UpperQuartile)
{
    /// <summary>Describes values; null for none.</summary>
    public static Description? Of(IReadOnlyCollection<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Count == 0 ? null : new(
            values.Count,
            MathNet.Numerics.Statistics.Statistics.Mean(values),
            values.Count > 1 ? MathNet.Numerics.Statistics.Statistics.StandardDeviation(values) : null,
            values.QuantileCustom(0.5, QuantileDefinition.R7),
            values.QuantileCustom(0.25, QuantileDefinition.R7),
            values.QuantileCustom(0.75, QuantileDefinition.R7));
    }

    /// <summary>Describes values given with how often each occurs; null for none.</summary>
    /// <param name="values">Ascending, each once or more.</param>
    public static Description? OfCounts(IReadOnlyList<(double Value, int Count)> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var n = values.Sum(v => v.Count);
        if (n == 0)
        {
            return null;
        }

        var mean = values.Sum(v => v.Value * v.Count) / n;
        double? deviation = n > 1 ? Math.Sqrt(values.Sum(v => (v.Value - mean) * (v.Value - mean) * v.Count) / (n - 1)) : null;
        return new(n, mean, deviation, Quantile(values, n, 0.5), Quantile(values, n, 0.25), Quantile(values, n, 0.75));
    }

    private static double Quantile(IReadOnlyList<(double Value, int Count)> values, int n, double share)
    {
        var place = (n - 1) * share;
        var (lower, upper) = (At(values, (int)Math.Floor(place)), At(values, (int)Math.Ceiling(place)));
        return lower + ((upper - lower) * (place - Math.Floor(place)));
    }

    // The value at a place from 0 in the order of all of them.
    private static double At(IReadOnlyList<(double Value, int Count)> values, int place)
    {
        var i = 0;
        while (place >= values[i].Count)
        {
            place -= values[i++].Count;
        }

        return values[i].Value;
    }
}
