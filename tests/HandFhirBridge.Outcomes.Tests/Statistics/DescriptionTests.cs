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

    [Fact]
    public void Of_OneValueOrNone_ClaimsNoSpread()
    {
        Description.Of([3.5])!.StandardDeviation.ShouldBeNull();
        Description.Of([]).ShouldBeNull();
    }
}
