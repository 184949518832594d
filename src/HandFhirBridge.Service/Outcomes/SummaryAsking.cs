using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>Makes questions of words, and asks them of what was gathered.</summary>
internal static class SummaryAsking
{
    /// <summary>Told apart by these where nothing else is asked.</summary>
    public static readonly ImmutableArray<SummaryDimension> Usual = [SummaryDimension.Task, SummaryDimension.HandRole];

    /// <summary>Every dimension by its name: <c>task</c>, <c>hand-role</c> …</summary>
    public static ImmutableSortedDictionary<string, SummaryDimension> Dimensions { get; } =
        Enum.GetValues<SummaryDimension>().ToImmutableSortedDictionary(NameOf, d => d, StringComparer.Ordinal);

    /// <summary>Name of a dimension in questions and columns.</summary>
    public static string NameOf(SummaryDimension dimension) => JsonNamingPolicy.KebabCaseLower.ConvertName(dimension.ToString());

    /// <summary>The question that words ask, or what is wrong with them.</summary>
    /// <param name="by">Names of dimensions.</param>
    /// <param name="where"><c>NAME=VALUE</c>.</param>
    /// <param name="smallest">Fewest persons of a group.</param>
    /// <param name="errors">Measurement errors that are set.</param>
    public static Outcome<SummaryQuestion> Question(IEnumerable<string> by, IEnumerable<string> where, int smallest, IEnumerable<MeasurementError> errors)
    {
        var told = by.SelectMany(b => b.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).Distinct().ToList();
        var filters = where.Select(w => w.Split('=', 2)).ToList();
        if (told.Concat(filters.Select(f => f[0])).FirstOrDefault(name => !Dimensions.ContainsKey(name)) is { } unknown)
        {
            return new(null, [SummaryProblems.NoSuchDimension.At("", $"Results cannot be told apart by \"{unknown}\".", unknown, $"Name one of {string.Join(", ", Dimensions.Keys)}.")]);
        }

        if (filters.FirstOrDefault(f => f.Length < 2 || f[1].Length == 0) is { } bare)
        {
            return new(null, [SummaryProblems.FilterWithoutValue.At("", $"The filter \"{bare[0]}\" has no value.", bare[0])]);
        }

        if (smallest < 1)
        {
            return new(null, [SummaryProblems.SmallestGroupTooSmall.At("", $"The smallest group is {smallest}; at least 1 is needed.", $"{smallest}")]);
        }

        return new(
            new SummaryQuestion([.. told.Select(b => Dimensions[b])], filters.DistinctBy(f => f[0]).ToImmutableSortedDictionary(f => Dimensions[f[0]], f => f[1]))
            {
                SmallestGroup = smallest,
                Thresholds = [.. errors.Select(e => new ChangeThreshold(e.Subject, e.Role is { } role ? WireName.Of(role) : null, e.MinimalDetectableChange, $"{e.Level} %, {e.Population}, {e.Source}"))],
            },
            []);
    }

    /// <summary>Asks what was gathered last.</summary>
    /// <exception cref="RowException">Nothing was gathered, or it cannot be read.</exception>
    public static OutcomeSummary Ask(BridgeSettings settings, SummaryQuestion question)
    {
        var rows = OutcomeFolders.Rows(settings);
        rows.Refresh(OutcomeFolders.Gathered(settings), StandardViews.All);
        using var connection = rows.Open(StandardViews.All);
        return Summarizer.Answer(connection, question) with { LeftOut = rows.LeftOut().Count };
    }
}
