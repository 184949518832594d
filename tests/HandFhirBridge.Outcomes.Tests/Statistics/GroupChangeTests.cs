using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Tests.Statistics;

public sealed class GroupChangeTests
{
    // PMC4268358, Table 5: box and block counts of five persons before, after and at follow-up, with means, SDs and effect sizes.
    [Theory]
    [InlineData(new double[] { 59, 21, 8, 28, 7 }, 24.6, 21.17, 3.6, 0.26)]
    [InlineData(new double[] { 50, 25, 5, 32, 7 }, 23.8, 18.65, 2.8, 0.20)]
    public void Of_PublishedGroup_GivesThePublishedFigures(double[] later, double mean, double sd, double change, double effect)
    {
        var group = GroupChange.Of([38, 23, 7, 30, 7], later);

        group.EarlierMean.ShouldBe(21, 0.005);
        group.EarlierStandardDeviation.ShouldBe(13.84, 0.005);
        group.LaterMean.ShouldBe(mean, 0.005);
        group.LaterStandardDeviation.ShouldBe(sd, 0.005);
        group.Change.ShouldBe(change, 0.005);
        group.EffectSize!.Value.ShouldBe(effect, 0.005);
    }

    [Fact]
    public void Of_NoSpreadBefore_HasNoEffectSize() => GroupChange.Of([5, 5], [6, 7]).EffectSize.ShouldBeNull();

    // NIST Statistical Reference Datasets, univariate summary statistics, NumAcc1: 10000001, 10000003, 10000002 have the certified
    // mean 10000002 and standard deviation 1 (from memory). NumAcc2 begins 1.2 and goes on 1.1, 1.3 to 1001 values: mean 1.2, SD 0.1.
    [Fact]
    public void Of_ReferenceDatasets_GivesTheCertifiedFigures()
    {
        var large = GroupChange.Of([10000001, 10000003, 10000002], [10000001, 10000003, 10000002]);
        double[] many = [1.2, .. Enumerable.Range(0, 1000).Select(i => i % 2 == 0 ? 1.1 : 1.3)];
        var close = GroupChange.Of(many, many);

        (large.EarlierMean, large.EarlierStandardDeviation).ShouldBe((10000002, 1));
        close.LaterMean.ShouldBe(1.2, 1e-12);
        close.LaterStandardDeviation.ShouldBe(0.1, 1e-12);
    }

    // Another way to the same change: the mean of the single differences.
    [Fact]
    public void Of_Pairs_HasTheMeanOfTheSingleDifferencesAsChange()
    {
        double[] earlier = [12.4, 30.25, 8.1, 19.99], later = [11.2, 28.75, 9.0, 15.5];

        GroupChange.Of(earlier, later).Change.ShouldBe(earlier.Zip(later, (e, l) => l - e).Average(), 1e-12);
        GroupChange.Of(earlier, later).EffectSize!.Value.ShouldBeLessThan(0, "faster is negative");
    }

    [Theory]
    [InlineData(new double[] { 1, double.NaN }, new double[] { 2, 3 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 2, double.PositiveInfinity })]
    [InlineData(new double[] { 1 }, new double[] { 2 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 2 })]
    public void Of_NotPairsOfNumbers_IsRefused(double[] earlier, double[] later) =>
        Should.Throw<ArgumentException>(() => GroupChange.Of(earlier, later));
}
