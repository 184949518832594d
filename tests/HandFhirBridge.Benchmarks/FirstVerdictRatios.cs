namespace HandFhirBridge.Benchmarks;

/// <summary>First verdict and peak memory of fresh processes: the command <c>check</c>, against the SDK's full definitions.</summary>
internal static class FirstVerdictRatios
{
    internal static Ratio[] Measure(PublishedBuild build, int runs)
    {
        var path = Corpus.Paths[0];
        List<double> oursMemory = [], otherMemory = [];
        var (ours, other) = Alternating.Measure(
            runs,
            () => Once(build, FirstVerdict.Ours, path, oursMemory),
            () => Once(build, FirstVerdict.Full, path, otherMemory));
        return
        [
            new("firstVerdict", ours, other, "ms", $"reading, scoring, mapping and the SDK's validator with its full definitions and default set-up, no printed report ({build.Kind})"),
            new("peakMemory", Measurement.Of(oursMemory), Measurement.Of(otherMemory), "MiB", $"peak of the same processes ({build.Kind})"),
        ];
    }

    private static double Once(PublishedBuild build, string side, string path, List<double> memory)
    {
        var (milliseconds, peak) = FirstVerdict.Measure(build.Program, side, path);
        memory.Add(peak);
        return milliseconds;
    }
}
