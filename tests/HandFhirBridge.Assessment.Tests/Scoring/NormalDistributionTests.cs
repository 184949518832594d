using HandFhirBridge.Assessment.Scoring;
using MathNet.Numerics.Distributions;

namespace HandFhirBridge.Assessment.Tests.Scoring;

public sealed class NormalDistributionTests
{
    // Reference library: MathNet.Numerics, Normal.CDF.
    [Fact]
    public void Below_AllUsefulValues_AgreesWithTheReferenceLibrary()
    {
        for (var z = -8.0; z <= 8.0; z += 0.01)
        {
            NormalDistribution.Below(z).ShouldBe(Normal.CDF(0, 1, z), 1e-7);
        }
    }

    // Quantiles of every printed table of the standard normal distribution, for instance Abramowitz and Stegun,
    // Handbook of Mathematical Functions (1964), table 26.1 (from memory).
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.84134)]
    [InlineData(1.645, 0.95002)]
    [InlineData(1.96, 0.97500)]
    [InlineData(-2, 0.02275)]
    public void Below_TabledValues_AreThoseOfTheTable(double z, double share) => NormalDistribution.Below(z).ShouldBe(share, 5e-6);
}
