using System.Collections.Immutable;
using MathNet.Numerics.Distributions;

namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>
/// Share of trials not yet finished after each time, with stopped trials taken for what they are: at least that long. Product-limit
/// estimate (Kaplan EL, Meier P. J Am Stat Assoc 1958;53:457-481), variance after Greenwood (1926).
/// </summary>
/// <param name="N">Trials.</param>
/// <param name="Stopped">Of them stopped.</param>
/// <param name="Steps">Times at which a task was finished, ascending.</param>
public sealed record KaplanMeier(int N, int Stopped, ImmutableArray<SurvivalStep> Steps)
{
    // Two-sided 95 %.
    private static readonly double Quantile = Normal.InvCDF(0, 1, 0.975);

    /// <summary>Seconds after which half had finished; null if more than half were stopped before. Where exactly half remain over an interval, its middle (as R's survfit gives it).</summary>
    public double? Median => Crossing(step => step.Survival);

    /// <summary>Lower limit of the 95 % confidence interval of the median (Brookmeyer R, Crowley J. Biometrics 1982;38:29-41, with limits of the logarithm of survival, R's default); null if not reached.</summary>
    public double? MedianLower => Crossing(step => Limit(step, -1));

    /// <summary>Upper limit of the same interval; null if not reached.</summary>
    public double? MedianUpper => Crossing(step => Limit(step, +1));

    /// <summary>Estimates from times; null for none.</summary>
    public static KaplanMeier? Of(IEnumerable<TaskTime> times)
    {
        ArgumentNullException.ThrowIfNull(times);
        var sorted = times.GroupBy(t => t.Seconds).OrderBy(g => g.Key)
            .Select(g => (Seconds: g.Key, Finished: g.Where(t => t.Finished).Sum(t => t.Count), All: g.Sum(t => t.Count))).ToList();
        var n = sorted.Sum(t => t.All);
        if (n == 0)
        {
            return null;
        }

        var steps = ImmutableArray.CreateBuilder<SurvivalStep>();
        var (survival, greenwood, atRisk) = (1.0, 0.0, n);
        foreach (var (seconds, finished, all) in sorted)
        {
            if (finished > 0)
            {
                survival *= (double)(atRisk - finished) / atRisk;
                greenwood += finished / ((double)atRisk * (atRisk - finished));
                steps.Add(new(seconds, atRisk, finished, survival, survival * Math.Sqrt(greenwood)));
            }

            // Stopped at the same second: still at risk there, gone after it.
            atRisk -= all;
        }

        return new(n, n - steps.Sum(s => s.Finished), steps.ToImmutable());
    }

    // Once all have finished there is no limit, as R has it: an interval must not look closed because the last trial ended.
    private static double Limit(SurvivalStep step, int sign) =>
        step.Survival == 0 ? double.NaN : Math.Min(1, step.Survival * Math.Exp(sign * Quantile * step.StandardError / step.Survival));

    private double? Crossing(Func<SurvivalStep, double> curve)
    {
        const double half = 0.5;
        // Products of ratios are exact to a few last digits only; half is half.
        const double tolerance = 1e-10;
        for (var i = 0; i < Steps.Length; i++)
        {
            var value = curve(Steps[i]);
            if (Math.Abs(value - half) < tolerance)
            {
                return i + 1 < Steps.Length ? (Steps[i].Seconds + Steps[i + 1].Seconds) / 2 : Steps[i].Seconds;
            }

            if (value < half)
            {
                return Steps[i].Seconds;
            }
        }

        return null;
    }
}
