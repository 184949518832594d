using System.Globalization;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Record.Search;

/// <summary>A FHIR date, dateTime or instant as the span of time it covers (R4 search.html#date), in ticks of UTC.</summary>
/// <param name="Low">First tick.</param>
/// <param name="High">Last tick.</param>
internal readonly partial record struct DateSpan(long Low, long High)
{
    private static readonly string[] Whole = ["yyyy", "yyyy-MM", "yyyy-MM-dd"];

    /// <summary>The span a written date covers; null if it is none. Without an offset it is taken as UTC.</summary>
    public static DateSpan? Parse(string text)
    {
        foreach (var (unit, format) in Whole.Index())
        {
            if (DateTime.TryParseExact(text, format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var start))
            {
                return new(start.Ticks, End(start, unit));
            }
        }

        return Time(text);
    }

    // The last year, month and day of the calendar end where it does.
    private static long End(DateTime start, int unit) => (unit, start) switch
    {
        (0, { Year: 9999 }) or (1, { Year: 9999, Month: 12 }) or (2, { Year: 9999, Month: 12, Day: 31 }) => DateTime.MaxValue.Ticks,
        (0, _) => start.AddYears(1).Ticks - 1,
        (1, _) => start.AddMonths(1).Ticks - 1,
        _ => start.AddDays(1).Ticks - 1,
    };

    private static DateSpan? Time(string text)
    {
        var form = Form().Match(text);
        if (!form.Success || !DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment))
        {
            return null;
        }

        var fraction = form.Groups["fraction"].Length;
        var width = !form.Groups["seconds"].Success ? TimeSpan.TicksPerMinute : fraction >= 7 ? 1 : (long)Math.Pow(10, 7 - fraction);
        return new(moment.UtcTicks, moment.UtcTicks + width - 1);
    }

    // Minutes without seconds are for searches; a resource has them both (R4 search.html#date).
    [GeneratedRegex(@"^\d{4}-\d\d-\d\dT\d\d:\d\d(?<seconds>:\d\d(\.(?<fraction>\d+))?)?(Z|[+-]\d\d:\d\d)?$")]
    private static partial Regex Form();
}
