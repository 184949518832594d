using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Tests.Statistics;

public sealed class DescriptionTests
{
    // R 4.2: x <- c(59, 21, 8, 28, 7, 33); mean(x); sd(x); quantile(x) (type 7, the default).
    [Fact]
    public void Of_SixValues_GivesTheFiguresOfR()
    {
        var described = Description.Of([59, 21, 8, 28, 7, 33])!;

        described.N.ShouldBe(6);
        described.Mean.ShouldBe(26, 1e-12);
        described.StandardDeviation!.Value.ShouldBe(19.24577876, 1e-8);
        (described.LowerQuartile, described.Median, described.UpperQuartile).ShouldBe((11.25, 24.5, 31.75));
    }

    // Against MathNet.Numerics, which Of describes with, over the values written out.
    [Theory]
    [InlineData(1, 4, 2, 1, 1, 3)]
    [InlineData(1, 1, 1, 1, 1, 1)]
    [InlineData(5, 0, 0, 0, 0, 2)]
    [InlineData(0, 1, 0, 0, 0, 0)]
    public void OfCounts_OfRepeatedValues_GivesTheFiguresOfAllOfThem(params int[] counts)
    {
        double[] values = [7, 8, 21, 28, 33, 59];
        var expected = Description.Of([.. values.SelectMany((v, i) => Enumerable.Repeat(v, counts[i]))])!;

        var described = Description.OfCounts([.. values.Zip(counts)])!;

        described.N.ShouldBe(expected.N);
        described.Mean.ShouldBe(expected.Mean, 1e-12);
        (described.StandardDeviation ?? -1).ShouldBe(expected.StandardDeviation ?? -1, 1e-12);
        described.Median.ShouldBe(expected.Median, 1e-12);
        described.LowerQuartile.ShouldBe(expected.LowerQuartile, 1e-12);
        described.UpperQuartile.ShouldBe(expected.UpperQuartile, 1e-12);
        Description.OfCounts([]).ShouldBeNull();
    }

    [Fact]
    public void Of_OneValueOrNone_ClaimsNoSpread()
    {
        Description.Of([3.5])!.StandardDeviation.ShouldBeNull();
        Description.Of([]).ShouldBeNull();
    }
}
