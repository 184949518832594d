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

    [Theory]
    [InlineData(new double[] { 1 }, new double[] { 2 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 2 })]
    public void Of_NotPairs_IsRefused(double[] earlier, double[] later) =>
        Should.Throw<ArgumentException>(() => GroupChange.Of(earlier, later));
}
