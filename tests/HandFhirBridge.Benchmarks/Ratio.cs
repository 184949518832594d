namespace HandFhirBridge.Benchmarks;

/// <summary>Two sides measured in turn, and how many times ours is less (or, where said, how many times it is more).</summary>
/// <param name="Name">Name in the output.</param>
/// <param name="Ours">Our side.</param>
/// <param name="Other">The side compared with.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="OtherIs">What the other side is.</param>
internal sealed record Ratio(string Name, Measurement Ours, Measurement Other, string Unit, string OtherIs)
{
    /// <summary>Other divided by ours: above 1, ours is the lesser.</summary>
    internal double Value => Other.Median / Ours.Median;
}
