using System.Globalization;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Tests.Statistics;

/// <summary>
/// Freireich's leukaemia trial (Blood 1963;21:699-716) as tabulated in Kleinbaum DG, Klein M, Survival Analysis (Springer): a worked data
/// set with censored times. Expected figures: the book's, and those of R's package survival (Data/survival.R makes them).
/// </summary>
public sealed class SurvivalTests
{
    private static readonly TaskTime[] Treated =
    [
        .. new double[] { 6, 6, 6, 7, 10, 13, 16, 22, 23 }.Select(t => new TaskTime(t, true)),
        .. new double[] { 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35 }.Select(t => new TaskTime(t, false)),
    ];

    private static readonly TaskTime[] Placebo =
        [.. new double[] { 1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23 }.Select(t => new TaskTime(t, true))];

    private static string[][] Expected =>
        [.. File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Statistics", "Data", "survival.expected.txt")).Skip(1).Select(l => l.Trim().Split(' '))];

    [Fact]
    public void KaplanMeier_WorkedExample_GivesTheBooksFigures()
    {
        var treated = KaplanMeier.Of(Treated)!;

        treated.Steps.Select(s => (s.Seconds, Math.Round(s.Survival, 3))).ShouldBe(
            [(6, .857), (7, .807), (10, .753), (13, .690), (16, .627), (22, .538), (23, .448)]);
        (treated.N, treated.Stopped, treated.Median).ShouldBe((21, 12, 23));
        KaplanMeier.Of(Placebo)!.Median.ShouldBe(8);
    }

    [Theory]
    [InlineData("treated")]
    [InlineData("placebo")]
    public void KaplanMeier_WorkedExample_GivesTheFiguresOfR(string group)
    {
        var ours = KaplanMeier.Of(group == "treated" ? Treated : Placebo)!;

        var theirs = Expected.Where(l => l[0] == group).ToList();
        ours.Steps.Length.ShouldBe(theirs.Count);
        foreach (var (step, line) in ours.Steps.Zip(theirs))
        {
            (step.Seconds, step.AtRisk, step.Finished).ShouldBe((Number(line[1]), (int)Number(line[2]), (int)Number(line[3])));
            step.Survival.ShouldBe(Number(line[4]), 1e-10);
            if (line[5] != "NaN")
            {
                step.StandardError.ShouldBe(Number(line[5]), 1e-10);
            }
        }

        var median = Expected.Single(l => l[0] == "median" && l[1] == group);
        new[] { ours.Median, ours.MedianLower, ours.MedianUpper }.ShouldBe(median[2..].Select(t => t == "NA" ? (double?)null : Number(t)));
    }

    // Groups as small as those shown: their upper limit is not reached.
    [Fact]
    public void KaplanMeier_FewTimes_GivesTheIntervalOfR()
    {
        foreach (var line in Expected.Where(l => l[0] == "few"))
        {
            var ours = KaplanMeier.Of(line[1].Split(',').Select(t => new TaskTime(Number(t), true)))!;

            new[] { ours.Median, ours.MedianLower, ours.MedianUpper }.ShouldBe(line[2..].Select(t => t == "NA" ? (double?)null : Number(t)), line[1]);
        }
    }

    [Fact]
    public void LogRank_WorkedExample_GivesTheFiguresOfBookAndR()
    {
        var two = LogRank.Of([Treated, Placebo])!;
        var third = LogRank.Of(Thirds())!;

        two.ChiSquare.ShouldBe(16.79, 0.005);
        (two.DegreesOfFreedom, third.DegreesOfFreedom).ShouldBe((1, 2));
        foreach (var (ours, count) in new[] { (two, "2"), (third, "3") })
        {
            var line = Expected.Single(l => l[0] == "logrank" && l[1] == count);
            ours.ChiSquare.ShouldBe(Number(line[2]), 1e-9);
            ours.P.ShouldBe(Number(line[3]), 1e-8);
        }
    }

    // The mistake this guards against: a stopped time taken for a finished one, or left out.
    [Fact]
    public void KaplanMeier_StoppedTrials_AreNeitherDroppedNorTakenAsTimes()
    {
        var asTimes = KaplanMeier.Of(Treated.Select(t => t with { Finished = true }))!;
        var dropped = KaplanMeier.Of(Treated.Where(t => t.Finished))!;

        asTimes.Median!.Value.ShouldBeLessThan(23);
        dropped.Median!.Value.ShouldBeLessThan(23);
        KaplanMeier.Of([new(120, false, 7)])!.Median.ShouldBeNull();
        KaplanMeier.Of([]).ShouldBeNull();
    }

    [Fact]
    public void Of_TimesWithCounts_EqualsTheSameTimesOneByOne()
    {
        var counted = Placebo.GroupBy(t => t).Select(g => g.Key with { Count = g.Count() }).ToArray();

        KaplanMeier.Of(counted)!.Steps.ShouldBe(KaplanMeier.Of(Placebo)!.Steps);
        LogRank.Of([Treated, counted])!.ChiSquare.ShouldBe(LogRank.Of([Treated, Placebo])!.ChiSquare, 1e-12);
    }

    [Fact]
    public void LogRank_NothingToCompare_IsNone()
    {
        LogRank.Of([Treated]).ShouldBeNull();
        LogRank.Of([Treated, []]).ShouldBeNull();
        LogRank.Of([[new(120, false, 3)], [new(120, false, 4)]]).ShouldBeNull();
    }

    private static List<TaskTime>[] Thirds()
    {
        var groups = new List<TaskTime>[] { [], [], [] };
        foreach (var (time, place) in Treated.Concat(Placebo).Select((t, i) => (t, i)))
        {
            groups[(place + 1) % 3 == 0 ? 2 : place < Treated.Length ? 0 : 1].Add(time);
        }

        return groups;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
