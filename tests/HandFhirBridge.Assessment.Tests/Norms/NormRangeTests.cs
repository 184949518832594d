using System.Collections.Immutable;
using FsCheck.Xunit;
using HandFhirBridge.Assessment.Norms;
using MathNet.Numerics.Statistics;

namespace HandFhirBridge.Assessment.Tests.Norms;

public sealed class NormRangeTests
{
    // Reference library: MathNet.Numerics. Whatever times were measured, their printed mean, SD and range are never refused;
    // the bound is Bhatia R, Davis C. A better bound on the variance. Am Math Monthly 2000;107:353-357 (from memory).
    [Property(MaxTest = 500)]
    public void Find_FiguresOfARealSample_FitTheirRange(ImmutableArray<byte> tenths, byte decimals)
    {
        var sample = tenths.IsDefault ? [] : tenths.Select(t => (100 + t) / 10.0).ToArray();
        if (sample.Distinct().Count() < 2)
        {
            return;
        }

        decimal Printed(double value) => decimal.Round((decimal)value, 1 + (decimals % 3), MidpointRounding.AwayFromZero);
        var row = Entries.Row with
        {
            N = decimals % 2 == 0 ? sample.Length : null,
            Mean = Printed(sample.Mean()),
            StandardDeviation = Printed(sample.StandardDeviation()),
            Minimum = Printed(sample.Min()),
            Maximum = Printed(sample.Max()),
        };

        NormEntryCheck.Find(Entries.By("Anna") with { Rows = [row] }, Entries.Instrument).ShouldAllBe(p => p.Code != "HFB2017");
    }

    // Two persons at 10.0 and 15.0 s: mean 12.5, SD 3.54 (sample). A larger SD cannot come from that range.
    [Theory]
    [InlineData("3.54", true)]
    [InlineData("3.55", false)]
    public void Find_DeviationAtItsBound_IsRefusedBeyondIt(string sd, bool fits)
    {
        var row = Entries.Row with { N = 2, Mean = 12.50m, StandardDeviation = decimal.Parse(sd, null), Minimum = 10.000m, Maximum = 15.000m };

        NormEntryCheck.Find(Entries.By("Anna") with { Rows = [row] }, Entries.Instrument).Any(p => p.Code == "HFB2017").ShouldBe(!fits);
    }
}
