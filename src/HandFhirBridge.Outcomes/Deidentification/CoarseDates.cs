using System.Globalization;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Dates as they may leave (45 CFR 164.514(b)(2)(i)(C)). Times of day never do.</summary>
internal sealed class CoarseDates(DeidentificationOptions options)
{
    /// <summary>Ages above this are one category, 90 or older.</summary>
    public const int OldestAge = 89;

    /// <summary>Any date but that of birth; null if nothing of it may be left: of something over 89 years ago even the year tells an age over 89.</summary>
    /// <param name="written">FHIR date, dateTime or instant.</param>
    /// <param name="daysBack">Days of this patient; null where the patient is not known, so that only the year is left.</param>
    public string? Of(string written, int? daysBack) =>
        Year(written) is not { } year || IsOfOldest(written) ? null
            : options.Dates == DateRule.Shifted && daysBack is { } days && Day(written) is { } day ? Text(day.AddDays(-days))
            : year;

    /// <summary>True if this date, of birth or of anything else in a life, tells of an age over 89, or cannot be read well enough to know that it does not.</summary>
    public bool IsOfOldest(string written) => Earliest(written) is not { } birth || birth.AddYears(OldestAge + 1) <= options.AsOf;

    private static DateOnly? Earliest(string written) => Day(written)
        ?? (written.Length == 7 && Parse(written + "-01") is { } month ? month
            : Year(written) is { } year && written.Length == 4 ? Parse(year + "-01-01") : null);

    private static string? Year(string written) => written.Length >= 4 && written.AsSpan(0, 4).ContainsAnyExceptInRange('0', '9') is false && (written.Length == 4 || written[4] == '-') ? written[..4] : null;

    private static DateOnly? Day(string written) => written.Length >= 10 ? Parse(written[..10]) : null;

    private static DateOnly? Parse(string day) => DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var parsed) ? parsed : null;

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
