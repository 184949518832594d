using System.Globalization;
using System.Text.RegularExpressions;
using Hl7.Fhir.Model;
using MathNet.Numerics.Statistics;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>
/// The figures of one code as components. Standard deviation and variance have n − 1 in the denominator; quantiles are linear between order
/// statistics (definition 7 of Hyndman RJ, Fan Y. Am Stat 1996;50:361-365); skew and kurtosis are the sample's, kurtosis in excess of the
/// normal distribution's.
/// </summary>
/// <param name="measured">Measurements, all in one unit where a figure needs one.</param>
/// <param name="low">Beginning of the time asked for, in ticks: the zero of a regression; null takes the first measurement.</param>
internal sealed partial class Figures(MeasuredCode measured, long? low)
{
    // Beyond it a double is not a decimal of .NET, nor a measurement.
    private const double Largest = 7.9e28;
    private const string Ucum = "http://unitsofmeasure.org";

    private readonly double[] values = [.. measured.Values.Select(v => (double)v.Value)];
    private readonly Quantity? first = measured.Values.Count > 0 ? measured.Values[0].Quantity : null;

    private string Unit => first!.Code!;

    public IEnumerable<Observation.ComponentComponent> Of(Statistic statistic) => statistic.Code switch
    {
        Statistic.Count => [Component(statistic, (decimal)values.Length, "1")],
        Statistic.TotalCount => [Component(statistic, (decimal)measured.Total, "1")],
        _ when values.Length == 0 => [Absent(statistic, "There is no value.")],
        Statistic.Regression => Regression(statistic),
        "maximum" => [Component(statistic, measured.Values.Max(v => v.Value))],
        "minimum" => [Component(statistic, measured.Values.Min(v => v.Value))],
        "sum" => [Exact() is { } sum ? Component(statistic, sum) : Absent(statistic, "The sum is too large.")],
        "variance" => [Component(statistic, values.Variance(), SquareOf(Unit))],
        "skew" => [Component(statistic, values.Skewness(), "1")],
        "kurtosis" => [Component(statistic, values.Kurtosis(), "1")],
        _ => [Component(statistic, Figure(statistic.Code), Unit)],
    };

    private double Figure(string code) => code switch
    {
        "average" => values.Mean(),
        "std-dev" => values.StandardDeviation(),
        "median" => Quantile(0.5),
        "20-percent" or "5-1" => Quantile(0.2),
        "5-2" => Quantile(0.4),
        "5-3" => Quantile(0.6),
        "80-percent" or "5-4" => Quantile(0.8),
        "4-lower" => Quantile(0.25),
        "4-upper" => Quantile(0.75),
        // "one-half the difference between the first and the third quartiles".
        "4-dev" => (Quantile(0.75) - Quantile(0.25)) / 2,
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "A code of the value set without a figure."),
    };

    private double Quantile(double fraction) => values.QuantileCustom(fraction, QuantileDefinition.R7);

    // Decimals keep the digits they were measured with.
    private decimal? Exact()
    {
        try
        {
            return measured.Values.Sum(v => v.Value);
        }
        catch (OverflowException)
        {
            return null;
        }
    }

    // "This Statistic code will return both a gradient and an intercept value."
    private Observation.ComponentComponent[] Regression(Statistic statistic)
    {
        if (measured.Values.Any(v => v.At is null))
        {
            return [Absent(statistic, "A measurement has no time.")];
        }

        var zero = low ?? measured.Values.Min(v => v.At!.Value);
        var days = measured.Values.Select(v => (v.At!.Value - zero) / (double)TimeSpan.TicksPerDay).ToArray();
        if (days.Distinct().Count() < 2)
        {
            return [Absent(statistic, "It needs measurements at two times or more.")];
        }

        var (intercept, gradient) = MathNet.Numerics.Fit.Line(days, values);
        var at = new DateTime(zero, DateTimeKind.Utc).ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture);
        return [Component(statistic, gradient, $"{Unit}/d", "Regression: gradient, per day"), Component(statistic, intercept, Unit, $"Regression: intercept, at {at}")];
    }

    private Observation.ComponentComponent Component(Statistic statistic, double figure, string unit, string? text = null) =>
        double.IsNaN(figure) ? Absent(statistic, $"It is not defined for {values.Length} {(values.Length == 1 ? "value" : "values")} such as these.")
        : Math.Abs(figure) < Largest ? Component(statistic, (decimal)figure, unit, text)
        : Absent(statistic, "The figure is too large.");

    private Observation.ComponentComponent Component(Statistic statistic, decimal figure, string? unit = null, string? text = null) => new()
    {
        Code = statistic.Concept(text),
        Value = new Quantity(figure, unit ?? Unit, Ucum) { Unit = unit is null || unit == first?.Code ? first!.Unit ?? Unit : unit },
    };

    private static Observation.ComponentComponent Absent(Statistic statistic, string why) => new()
    {
        Code = statistic.Concept(),
        DataAbsentReason = new("http://terminology.hl7.org/CodeSystem/data-absent-reason", "not-applicable", "Not Applicable", why),
    };

    // UCUM, section 2.1: an exponent stands on a simple unit only; a term in parentheses is multiplied.
    private static string SquareOf(string unit) => unit == "1" ? "1" : Simple().IsMatch(unit) ? unit + "2" : $"({unit}).({unit})";

    [GeneratedRegex(@"^[A-Za-z_\[\]]+$")]
    private static partial Regex Simple();
}
