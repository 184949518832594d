using System.Globalization;
using FsCheck;
using FsCheck.Xunit;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using static HandFhirBridge.Assessment.Tests.Scoring.Sessions;

namespace HandFhirBridge.Assessment.Tests.Scoring;

/// <summary>What holds for any times; expected values come from whole hundredths of a second, not from decimals.</summary>
public sealed class ScorerProperties
{
    [Property]
    public void Total_AnyTimes_IsTheirExactSum(ushort[] times)
    {
        var hundredths = Seven(times);
        var scored = Score(With(Battery(Hand.Right, [.. hundredths.Select(h => (decimal?)Seconds(h))])));

        Total(scored, "seven-task-total").ShouldBe(Seconds(hundredths.Sum()));
        Total(scored, "six-task-total").ShouldBe(Seconds(hundredths.Skip(1).Sum()));
    }

    [Property]
    public void Total_AnyOrderOfTrials_IsTheSame(ushort[] times, int seed)
    {
        var battery = Battery(Hand.Right, [.. Seven(times).Select(h => (decimal?)Seconds(h))]).ToArray();
        var shuffled = battery.ToArray();
        new Random(seed).Shuffle(shuffled);

        Score(With(shuffled)).Totals.Select(t => t.Seconds).ShouldBe(Score(With(battery)).Totals.Select(t => t.Seconds));
    }

    [Property]
    public void Digits_AsEntered_AreKept(PositiveInt hundredths, bool tenthsOnly)
    {
        var seconds = tenthsOnly ? new decimal(hundredths.Get, 0, 0, false, 1) : Seconds(hundredths.Get);
        var written = seconds.ToString(CultureInfo.InvariantCulture);

        Score(With([Done("writing", Hand.Right, seconds)])).Trials[0].Trial.Seconds!.Value.ToString(CultureInfo.InvariantCulture).ShouldBe(written);
    }

    [Property(MaxTest = 500)]
    public void Judgement_AnyTimeAndNorm_IsSlowExactlyBeyondTwoDeviations(ushort time, ushort mean, byte deviation)
    {
        var (x, m, sd) = (time + 1, mean + 1, deviation + 1);
        var score = Judged(x, m, sd);

        score.Judgement.ShouldBe(x > m + (2 * sd) ? Judgement.Slow : Judgement.WithinNorm);
        ((double)score.Z).ShouldBe((x - m) / (double)sd, 0.005000001);
        ((double)score.PercentOfMean).ShouldBe(100.0 * x / m, 0.05000001);
    }

    // Positive is slower: the longer the time, the higher z, percent and percentile.
    [Property]
    public void Scores_LongerTime_AreNeverLower(ushort time, byte longer)
    {
        var (one, two) = (Judged(time + 1, 1200, 350), Judged(time + 1 + longer, 1200, 350));

        two.Z.ShouldBeGreaterThanOrEqualTo(one.Z);
        two.PercentOfMean.ShouldBeGreaterThanOrEqualTo(one.PercentOfMean);
        two.ApproximatePercentile.ShouldBeGreaterThanOrEqualTo(one.ApproximatePercentile);
    }

    [Property]
    public void Difference_HandsExchanged_ChangesItsSign(PositiveInt left, PositiveInt right)
    {
        decimal Difference(int l, int r) =>
            Score(With([Done("writing", Hand.Left, Seconds(l)), Done("writing", Hand.Right, Seconds(r))])).Differences[0].Seconds!.Value;

        Difference(left.Get, right.Get).ShouldBe(Seconds(left.Get) - Seconds(right.Get));
        Difference(right.Get, left.Get).ShouldBe(-Difference(left.Get, right.Get));
    }

    private static TrialScore Judged(int time, int mean, int sd)
    {
        var cell = new NormCell(
            "writing", HandRole.Dominant, SexForNorm.Male, 20, 94, 30, Seconds(mean), Seconds(sd), Evidence.SiteDoubleEntry, "invented for the check", null);
        return Score(With([Done("writing", Hand.Right, Seconds(time))]), demonstration: false, norms: new([new("own", "1", "seven-task", "Own", [cell])]))
            .Trials[0].Score!;
    }

    private static int[] Seven(ushort[] times) => [.. Enumerable.Range(0, 7).Select(i => times.ElementAtOrDefault(i) + 1)];

    private static decimal Seconds(int hundredths) => new(hundredths, 0, 0, false, 2);

    private static decimal? Total(ScoredSession scored, string total) => scored.Totals.Single(t => t.TotalId == total && t.Hand == Hand.Right).Seconds;
}
