using System.Globalization;

namespace HandFhirBridge.Record.Search;

/// <summary>A FHIR date, dateTime or instant as the span of time it covers (R4 search.html#date), in ticks of UTC.</summary>
/// <param name="Low">First tick.</param>
/// <param name="High">Last tick.</param>
internal readonly record struct DateSpan(long Low, long High)
{
    /// <summary>The span a written date covers; null if it is none. Without an offset it is taken as UTC.</summary>
    public static DateSpan? Parse(string text)
    {
        string[] whole = ["yyyy", "yyyy-MM", "yyyy-MM-dd"];
        for (var i = 0; i < whole.Length; i++)
        {
            if (DateTime.TryParseExact(text, whole[i], CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var start))
            {
                var end = i switch { 0 => start.AddYears(1), 1 => start.AddMonths(1), _ => start.AddDays(1) };
                return new(start.Ticks, end.Ticks - 1);
            }
        }

        return Time(text);
    }

    private static DateSpan? Time(string text)
    {
        var digits = text.IndexOf('.', StringComparison.Ordinal) is var dot and >= 0
            ? text[(dot + 1)..].TakeWhile(char.IsAsciiDigit).Count()
            : 0;
        var minutesOnly = text.Length > 16 ? text[16] != ':' : text.Length == 16;
        var width = minutesOnly ? TimeSpan.TicksPerMinute : digits switch
        {
            0 => TimeSpan.TicksPerSecond,
            >= 7 => 1,
            _ => (long)Math.Pow(10, 7 - digits),
        };
        return text.Contains('T', StringComparison.Ordinal)
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment)
            ? new(moment.UtcTicks, moment.UtcTicks + width - 1)
            : null;
    }
}
