using System.Globalization;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>Whether the numbers of one cell can belong together.</summary>
internal static class NormRowArithmetic
{
    public static IEnumerable<NormRowFault> Faults(NormRow row, decimal maxSeconds)
    {
        if (row.Mean <= 0 || row.Mean > maxSeconds)
        {
            yield return new(NormProblems.ImpossibleMean, "mean", $"The mean of {row.Name} is {Text(row.Mean)} s.", Text(row.Mean));
        }

        if (row.StandardDeviation <= 0 || row.StandardDeviation > row.Mean)
        {
            yield return new(
                NormProblems.ImpossibleDeviation, "sd",
                $"The standard deviation of {row.Name} is {Text(row.StandardDeviation)} s beside a mean of {Text(row.Mean)} s.", Text(row.StandardDeviation));
        }

        if (row.N < 2)
        {
            yield return new(NormProblems.ImpossibleSampleSize, "n", $"The sample of {row.Name} is {row.N}; fewer than two have no standard deviation.", $"{row.N}");
        }

        if (!RangeFits(row))
        {
            var range = $"{Text(row.Minimum ?? 0)}-{(row.Maximum is { } max ? Text(max) : "")}";
            yield return new(
                NormProblems.RangeDoesNotFit, row.Minimum is null ? "max" : "min",
                $"{row.Name}: a mean of {Text(row.Mean)} s with SD {Text(row.StandardDeviation)} s cannot come from times of {range} s.", range);
        }
    }

    private static bool RangeFits(NormRow row)
    {
        // Printed numbers are rounded: each may be off by half a unit of its last digit.
        var (mean, slack) = (row.Mean, HalfUnit(row.Mean));
        if (row.Minimum is <= 0 || mean + slack < row.Minimum - HalfUnit(row.Minimum ?? 0) || mean - slack > row.Maximum + HalfUnit(row.Maximum ?? 0))
        {
            return false;
        }

        return row is not { Minimum: { } min, Maximum: { } max }
            || LowestVariance(row) <= LargestVariance(row, mean, slack, min - HalfUnit(min), max + HalfUnit(max));
    }

    private static decimal LowestVariance(NormRow row)
    {
        var sd = Math.Max(0, row.StandardDeviation - HalfUnit(row.StandardDeviation));
        return sd > 1000 ? decimal.MaxValue : sd * sd;
    }

    // Bhatia R, Davis C. A better bound on the variance. Am Math Monthly 2000;107:353-357 (from memory): the variance of values
    // between m and M with mean x is at most (M - x)(x - m). The factor makes it that of a sample; without n the largest, that of two.
    private static decimal LargestVariance(NormRow row, decimal mean, decimal slack, decimal min, decimal max)
    {
        var n = row.N is { } size and > 1 ? size : 2;
        return (decimal)n / (n - 1) * Math.Min(1_000_000, max - mean + slack) * Math.Min(1_000_000, mean - min + slack);
    }

    private static decimal HalfUnit(decimal printed) => new(5, 0, 0, false, (byte)Math.Min(28, printed.Scale + 1));

    private static string Text(decimal value) => value.ToString(CultureInfo.InvariantCulture);
}
