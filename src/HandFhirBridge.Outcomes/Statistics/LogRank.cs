using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>
/// Log-rank test of two or more groups (Mantel N. Cancer Chemother Rep 1966;50:163-170; Peto R, Peto J. J R Stat Soc A
/// 1972;135:185-207): whether their times differ, stopped trials taken as censored. It says nothing of how much, and nothing of one patient.
/// </summary>
/// <param name="ChiSquare">Test statistic.</param>
/// <param name="DegreesOfFreedom">Groups − 1.</param>
/// <param name="P">Probability of so large a statistic if the groups did not differ.</param>
public sealed record LogRank(double ChiSquare, int DegreesOfFreedom, double P)
{
    /// <summary>Compares groups; null where there are fewer than two with times, or nothing varies.</summary>
    public static LogRank? Of(IReadOnlyList<IReadOnlyCollection<TaskTime>> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        var filled = groups.Where(g => g.Any(t => t.Count > 0)).ToList();
        var k = filled.Count;
        if (k < 2)
        {
            return null;
        }

        var atRisk = filled.Select(g => (double)g.Sum(t => t.Count)).ToArray();
        var difference = Vector<double>.Build.Dense(k);
        var covariance = Matrix<double>.Build.Dense(k, k);
        foreach (var at in filled.SelectMany((g, group) => g.Select(t => (Group: group, Time: t))).GroupBy(x => x.Time.Seconds).OrderBy(x => x.Key))
        {
            var finished = Counts(at.Where(x => x.Time.Finished), k);
            Add(difference, covariance, atRisk, finished);
            var all = Counts(at, k);
            for (var i = 0; i < k; i++)
            {
                atRisk[i] -= all[i];
            }
        }

        // One group follows from the others.
        var (left, spread) = (difference.SubVector(0, k - 1), covariance.SubMatrix(0, k - 1, 0, k - 1));
        if (spread.Rank() < k - 1)
        {
            return null;
        }

        var statistic = left * spread.Solve(left);
        return new(statistic, k - 1, 1 - ChiSquared.CDF(k - 1, statistic));
    }

    private static double[] Counts(IEnumerable<(int Group, TaskTime Time)> times, int k)
    {
        var counts = new double[k];
        foreach (var (group, time) in times)
        {
            counts[group] += time.Count;
        }

        return counts;
    }

    // Hypergeometric mean and covariance at one time.
    private static void Add(Vector<double> difference, Matrix<double> covariance, double[] atRisk, double[] finished)
    {
        var (n, d) = (atRisk.Sum(), finished.Sum());
        if (d == 0)
        {
            return;
        }

        for (var i = 0; i < atRisk.Length; i++)
        {
            difference[i] += finished[i] - (d * atRisk[i] / n);
            for (var j = 0; n > 1 && j < atRisk.Length; j++)
            {
                covariance[i, j] += d * (n - d) / (n - 1) * atRisk[i] / n * ((i == j ? 1 : 0) - (atRisk[j] / n));
            }
        }
    }
}
