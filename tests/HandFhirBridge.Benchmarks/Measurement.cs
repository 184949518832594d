namespace HandFhirBridge.Benchmarks;

/// <summary>What was measured of one side: median and spread of its runs.</summary>
internal sealed record Measurement(double Median, double Least, double Most, int Runs)
{
    internal static Measurement Of(IEnumerable<double> runs)
    {
        double[] sorted = [.. runs.Order()];
        var middle = sorted.Length / 2;
        var median = sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
        return new(median, sorted[0], sorted[^1], sorted.Length);
    }
}
