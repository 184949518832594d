namespace HandFhirBridge.Benchmarks;

/// <summary>Measures two sides in turn, so that whatever else the machine does falls on both.</summary>
internal static class Alternating
{
    internal static (Measurement Ours, Measurement Other) Measure(int runs, Func<double> ours, Func<double> other)
    {
        List<double> mine = [], theirs = [];
        for (var run = 0; run < runs; run++)
        {
            mine.Add(ours());
            theirs.Add(other());
        }

        return (Measurement.Of(mine), Measurement.Of(theirs));
    }

    internal static async Task<(Measurement Ours, Measurement Other)> MeasureAsync(int runs, Func<Task<double>> ours, Func<Task<double>> other)
    {
        List<double> mine = [], theirs = [];
        for (var run = 0; run < runs; run++)
        {
            mine.Add(await ours());
            theirs.Add(await other());
        }

        return (Measurement.Of(mine), Measurement.Of(theirs));
    }
}
