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
}
