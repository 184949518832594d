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
}
