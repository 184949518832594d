using System.Globalization;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Service.Operations;

/// <summary>Spans of time as people type them: <c>90s</c>, <c>30m</c>, <c>2h</c>, <c>1d</c>.</summary>
public static partial class SpanText
{
    /// <summary>Longest span taken: what is retried should not lie about for longer than a week.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(7);

    /// <summary>What to write, for remedies.</summary>
    public const string Remedy = "Write a number with s, m, h or d behind it, such as 30m, of at most 7d.";

    /// <summary>Reads a span; null if it is none, or longer than <see cref="Longest"/>.</summary>
    public static TimeSpan? Read(string text)
    {
        if (Shape().Match(text) is not { Success: true } match)
        {
            return null;
        }

        var number = int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
        var span = match.Groups[2].Value switch
        {
            "s" => TimeSpan.FromSeconds(number),
            "m" => TimeSpan.FromMinutes(number),
            "h" => TimeSpan.FromHours(number),
            _ => TimeSpan.FromDays(number),
        };
        return span <= Longest ? span : null;
    }

    [GeneratedRegex("^([0-9]{1,6})([smhd])$")]
    private static partial Regex Shape();
}
