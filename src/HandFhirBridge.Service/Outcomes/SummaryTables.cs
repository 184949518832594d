using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Statistics;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>A summary as two tables, the same for the command line, files and the page.</summary>
internal static class SummaryTables
{
    // Adds the digits a rounded figure would leave off: all of a column have two.
    private const decimal Written = 0.00m;

    /// <summary>Columns of the groups.</summary>
    public static ImmutableArray<string> GroupColumns(SummaryQuestion question) =>
    [
        .. Dimensions(question), "persons", "trials", "completed", "stopped", "without_time", "mean_s", "sd_s", "median_s", "q1_s", "q3_s",
        "km_median_s", "km_lower_s", "km_upper_s", "z_n", "z_mean", "z_sd", "z_median", "z_q1", "z_q3",
    ];

    /// <summary>One row a group.</summary>
    public static IEnumerable<object?[]> Groups(OutcomeSummary summary) => summary.Groups.Select(g => (object?[])
    [
        .. g.Key, g.Persons, g.Trials, Rest(g, summary.Question), Few(g.Stopped, summary.Question), Few(g.WithoutTime, summary.Question), .. Five(g.Times, 2), Round(g.Survival?.Median, 2), Round(g.Survival?.MedianLower, 2), Round(g.Survival?.MedianUpper, 2),
        g.Z?.N, .. Five(g.Z, 2),
    ]);

    /// <summary>Columns of the changes.</summary>
    public static ImmutableArray<string> ChangeColumns(SummaryQuestion question) =>
    [
        .. Dimensions(question), "until", "pairs", "left_out", "first_mean_s", "later_mean_s", "change_s", "effect_size", "standardized_response_mean", "judged", "faster_share", "slower_share",
    ];

    /// <summary>One row a group and later session.</summary>
    public static IEnumerable<object?[]> Changes(OutcomeSummary summary) => summary.Groups.SelectMany(g => g.Changes.Where(c => c.Pairs is not null || c.LeftOut > 0).Select(c => (object?[])
    [
        .. g.Key, c.Until, c.Pairs?.N, Few(c.LeftOut, summary.Question), Round(c.Pairs?.EarlierMean, 2), Round(c.Pairs?.LaterMean, 2), Round(c.Pairs?.Change, 2), Round(c.Pairs?.EffectSize, 2),
        Round(c.Pairs?.StandardizedResponseMean, 2), c.Judged, Share(c.Faster, c.Judged, summary.Question), Share(c.Slower, c.Judged, summary.Question),
    ]));

    /// <summary>What a reader must know beside the figures, a sentence each.</summary>
    public static IEnumerable<string> Notes(OutcomeSummary summary)
    {
        if (summary.Demonstration)
        {
            yield return "DEMONSTRATION: z rests on norms from memory; not for patients.";
        }

        yield return $"Asked: {(summary.Question.Where.IsEmpty ? "all gathered trials" : string.Join(", ", summary.Question.Where.Select(w => $"{Words.Of(w.Key)} {w.Value}")))}; by {string.Join(", ", summary.Question.By.Select(b => Words.Of(b)).DefaultIfEmpty("nothing"))}. Sources: {string.Join(", ", summary.Sources.DefaultIfEmpty("none"))}.";
        if (summary.HeldBack > 0)
        {
            yield return $"{summary.HeldBack} {(summary.HeldBack == 1 ? "group is" : "groups are")} not shown: fewer than {summary.Question.SmallestGroup} persons, or so that a smaller one cannot be worked out.";
        }

        if (summary.LeftOut > 0)
        {
            yield return $"{summary.LeftOut} gathered {(summary.LeftOut == 1 ? "resource does" : "resources do")} not fit the tables and {(summary.LeftOut == 1 ? "is" : "are")} in no figure; gather names {(summary.LeftOut == 1 ? "it" : "them")}.";
        }

        if (summary.Question.SmallestGroup > 1)
        {
            yield return $"A count of {(summary.Question.SmallestGroup == 2 ? "1" : $"1 to {summary.Question.SmallestGroup - 1}")} within a group is written <{summary.Question.SmallestGroup}; what it could be worked out from is given roughly or left out.";
        }

        yield return "Mean, SD, median and quartiles are of completed trials. The Kaplan-Meier median, with its 95 % interval, also counts stopped trials, as lasting longer than the cap.";
        yield return summary.Norms.IsEmpty ? "No trial was judged against a norm." : $"z rests on {string.Join("; ", summary.Norms)}{(summary.Groups.Any(g => g.UnlikeNorms) ? "; it is left out where norms of different set, version or evidence would be mixed" : "")}.";
        if (summary.Difference is { } test)
        {
            yield return FormattableString.Invariant($"Log-rank test between the groups shown: chi-square {test.ChiSquare:0.00}, {test.DegreesOfFreedom} df, p {(test.P < 0.001 ? "< 0.001" : FormattableString.Invariant($"= {test.P:0.000}"))}. It takes every trial for independent, which trials of one person are not.");
        }

        if (Changes(summary).Any())
        {
            yield return "Change is from a person's first session at the clinic to the one 28 to 56 days later (6 weeks), 70 to 98 days later (12 weeks), and the last; negative is faster. "
                + (summary.Thresholds.IsEmpty ? "No measurement error is set, so no share beyond it is given." : $"Shares are of pairs beyond the minimal detectable change: {string.Join("; ", summary.Thresholds)}.");
        }

        yield return OutcomeSummary.Caution;
    }

    private static IEnumerable<string> Dimensions(SummaryQuestion question) => question.By.Select(SummaryAsking.NameOf);

    private static IEnumerable<object?> Five(Description? of, int digits) =>
        [Round(of?.Mean, digits), Round(of?.StandardDeviation, digits), Round(of?.Median, digits), Round(of?.LowerQuartile, digits), Round(of?.UpperQuartile, digits)];

    private static decimal? Round(double? value, int digits) => value is { } v && double.IsFinite(v) ? Math.Round((decimal)v, digits, MidpointRounding.AwayFromZero) + Written : null;

    // A count inside a group may be one person's as well.
    private static bool IsFew(int count, SummaryQuestion question) => count > 0 && count < question.SmallestGroup;

    private static object Few(int count, SummaryQuestion question) => IsFew(count, question) ? $"<{question.SmallestGroup}" : count;

    private static object Rest(SummaryGroup group, SummaryQuestion question) =>
        IsFew(group.Stopped, question) || IsFew(group.WithoutTime, question) ? $">{Math.Max(0, group.Completed - question.SmallestGroup)}" : group.Completed;

    private static decimal? Share(int of, int all, SummaryQuestion question) => all == 0 || IsFew(of, question) ? null : Math.Round((decimal)of / all, 3);
}
