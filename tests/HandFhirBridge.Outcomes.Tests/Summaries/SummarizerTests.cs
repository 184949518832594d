using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Statistics;
using HandFhirBridge.Outcomes.Summaries;

namespace HandFhirBridge.Outcomes.Tests.Summaries;

/// <summary>Summaries of rows: against a published trial, against MathNet.Numerics, and against the rules for what is not to be shown.</summary>
public sealed class SummarizerTests : IDisposable
{
    private readonly TrialTable table = new();

    public void Dispose() => table.Dispose();

    // Freireich et al., Blood 1963;21:699-716, as tabulated in Kleinbaum & Klein: weeks for seconds, censored for stopped, groups for sites.
    [Fact]
    public void Answer_PublishedTrialAsTwoSites_GivesTheBooksMediansAndLogRank()
    {
        double[] events = [6, 6, 6, 7, 10, 13, 16, 22, 23];
        double[] censored = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
        double[] placebo = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];
        foreach (var (time, i) in events.Concat(censored).Select((t, i) => (t, i)))
        {
            table.Trial($"t{i}", time, i < events.Length ? "completed" : "stopped-at-cap", site: "treated");
        }

        foreach (var (time, i) in placebo.Select((t, i) => (t, i)))
        {
            table.Trial($"p{i}", time, site: "placebo");
        }

        var summary = Ask([SummaryDimension.Site], (SummaryDimension.Task, "writing"));

        summary.Groups.Select(g => (g.Key[0], g.Persons, g.Trials, g.Stopped, g.Survival!.Median)).ShouldBe([("placebo", 21, 21, 0, 8), ("treated", 21, 21, 12, 23)]);
        summary.Difference!.ChiSquare.ShouldBe(16.79, 0.005);
        // Never taken as plain values: the completed alone are described, and said to be so.
        summary.Groups[1].Times!.N.ShouldBe(9);
    }

    [Fact]
    public void Answer_ManyTrials_DescribesAsMathNetDoes()
    {
        var times = Enumerable.Range(0, 60).Select(i => Math.Round(8 + (i * 37 % 23 * 0.71), 2)).ToList();
        foreach (var (time, i) in times.Select((t, i) => (t, i)))
        {
            table.Trial($"p{i}", time, z: Math.Round((time - 12) / 3, 2), task: i % 2 == 0 ? "writing" : "card-turning");
        }

        table.Trial("q", null, "declined");
        table.Trial("r", 1, status: "entered-in-error");

        var summary = Ask([SummaryDimension.Task]);

        foreach (var (group, place) in new[] { ("writing", 0), ("card-turning", 1) })
        {
            var found = summary.Groups.Single(g => g.Key[0] == group);
            var expected = Description.Of([.. times.Where((_, i) => i % 2 == place)])!;
            ShouldAgree(found.Times!, expected);
            ShouldAgree(found.Z!, Description.Of([.. times.Where((_, i) => i % 2 == place).Select(t => Math.Round((t - 12) / 3, 2))])!);
            found.WithoutTime.ShouldBe(1 - place);
        }
    }

    [Fact]
    public void Answer_SeveralVisits_ChangesAsTheirPairsDo()
    {
        var errors = ImmutableArray.Create(new ChangeThreshold("writing", null, 2m, "invented"));
        var first = Enumerable.Range(0, 8).Select(i => 14.0 + i).ToList();
        var last = Enumerable.Range(0, 8).Select(i => 11.5 + (i * 1.2)).ToList();
        for (var i = 0; i < 8; i++)
        {
            table.Trial($"p{i}", first[i]);
            // 42 days later is the visit at six weeks; what lies between is neither first nor last.
            table.Trial($"p{i}", 30, day: "2026-02-16");
            table.Trial($"p{i}", last[i], day: "2026-06-05");
        }

        table.Trial("stopped", 20);
        table.Trial("stopped", 120, "stopped-at-cap", day: "2026-06-05");
        table.Trial("once", 15);

        var changes = Ask([SummaryDimension.Task], errors: errors).Groups.Single().Changes.ToDictionary(c => c.Until);

        changes.Keys.ShouldBe(["6 weeks", "last"], ignoreOrder: true);
        var expected = GroupChange.Of(first, last);
        var found = changes["last"].Pairs!;
        (found.N, changes["last"].LeftOut).ShouldBe((8, 1));
        found.Change.ShouldBe(expected.Change, 1e-9);
        found.EffectSize!.Value.ShouldBe(expected.EffectSize!.Value, 1e-9);
        found.StandardizedResponseMean!.Value.ShouldBe(expected.StandardizedResponseMean!.Value, 1e-9);
        var differences = last.Zip(first, (l, f) => l - f).ToList();
        (changes["last"].Judged, changes["last"].Faster, changes["last"].Slower).ShouldBe((8, differences.Count(d => d < -2), differences.Count(d => d > 2)));
    }

    // Two sessions of one day have no order in a set that keeps dates: the quicker counts at first and the slower at last, so that neither
    // choice makes a gain, and the same whichever was read first.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Answer_TwoSessionsOnADay_TakesTheLeastGainWhateverTheirOrder(bool turned)
    {
        for (var i = 0; i < 5; i++)
        {
            double[] first = [20 + i, 22 + i];
            double[] last = [15 + i, 16 + i];
            foreach (var at in turned ? new[] { 1, 0 } : [0, 1])
            {
                table.Trial($"p{i}", last[at], day: "2026-06-05");
                table.Trial($"p{i}", first[at]);
            }
        }

        var pairs = Ask([SummaryDimension.Task]).Groups.Single().Changes.Single(c => c.Until == "last").Pairs!;

        pairs.N.ShouldBe(5);
        pairs.Change.ShouldBe(16.0 - 20.0, 1e-9);
    }

    [Fact]
    public void Answer_SmallGroup_IsHeldBackAndSoIsTheOneThatWouldGiveItAway()
    {
        foreach (var (site, persons) in new[] { ("large", 9), ("middle", 6), ("small", 4) })
        {
            for (var i = 0; i < persons; i++)
            {
                // Several trials of few persons are still few persons.
                table.Trial($"p{i}", 10 + i, site: site);
                table.Trial($"p{i}", 11 + i, site: site, task: "card-turning");
            }
        }

        var summary = Ask([SummaryDimension.Site]);

        (summary.Groups.Single().Key[0], summary.HeldBack).ShouldBe(("large", 2));
        Ask([]).Groups.Single().Persons.ShouldBe(19);
    }

    [Fact]
    public void Answer_TrialsOnUnlikeNorms_GivesNoZ()
    {
        for (var i = 0; i < 6; i++)
        {
            table.Trial($"p{i}", 10 + i, z: i, evidence: i == 0 ? "recalled" : "site-double-entry");
        }

        var group = Ask([]).Groups.Single();

        (group.Z, group.UnlikeNorms).ShouldBe((null, true));
        group.Times!.N.ShouldBe(6);
    }

    [Fact]
    public void Answer_ByAgeSexIntervalAndCondition_TellsThemApart()
    {
        for (var i = 0; i < 12; i++)
        {
            table.Trial($"p{i}", 10 + i, day: "2026-06-15");
            table.Trial($"p{i}", 10 + i, day: "2026-07-27");
            // Ninety on the day itself, and one day before it.
            table.Patient($"p{i}", i < 6 ? "female" : null, i < 6 ? "1936-06-15" : "1936-07-28");
            table.Condition($"p{i}", i < 6 ? "57406009" : "263102004");
        }

        string[] Keys(SummaryDimension by) => [.. Ask([by]).Groups.Select(g => $"{g.Key[0]} {g.Trials}")];
        Keys(SummaryDimension.Sex).ShouldBe(["female 12", "unknown 12"]);
        Keys(SummaryDimension.AgeBand).ShouldBe(["80-89 12", "90+ 12"]);
        Keys(SummaryDimension.Interval).ShouldBe(["6 weeks 12", "first 12"]);
        Keys(SummaryDimension.Condition).ShouldBe(["http://snomed.info/sct|263102004 12", "http://snomed.info/sct|57406009 12"]);
        Ask([SummaryDimension.Sex], (SummaryDimension.Condition, "http://snomed.info/sct|57406009")).Groups.Single().Key[0].ShouldBe("female");
    }

    // A value from outside goes into a statement: it stays a value.
    [Fact]
    public void Answer_ValueWithAQuote_IsAValue() =>
        Ask([], (SummaryDimension.Site, "x' OR '1'='1")).Groups.ShouldBeEmpty();

    private static void ShouldAgree(Description found, Description expected)
    {
        found.N.ShouldBe(expected.N);
        found.Mean.ShouldBe(expected.Mean, 1e-9);
        found.StandardDeviation!.Value.ShouldBe(expected.StandardDeviation!.Value, 1e-9);
        found.Median.ShouldBe(expected.Median, 1e-9);
        found.LowerQuartile.ShouldBe(expected.LowerQuartile, 1e-9);
        found.UpperQuartile.ShouldBe(expected.UpperQuartile, 1e-9);
    }

    private OutcomeSummary Ask(SummaryDimension[] by, (SummaryDimension, string)? where = null, ImmutableArray<ChangeThreshold>? errors = null) => Summarizer.Answer(table.Rows, new(
        [.. by],
        where is var (dimension, value) ? ImmutableSortedDictionary<SummaryDimension, string>.Empty.Add(dimension, value) : ImmutableSortedDictionary<SummaryDimension, string>.Empty)
    { Thresholds = errors ?? [] });
}
