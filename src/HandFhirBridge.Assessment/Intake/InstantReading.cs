using System.Globalization;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Dates (RFC 3339 full-date) and points in time (RFC 3339 date-time, capital T and Z as FHIR asks).</summary>
internal static partial class InstantReading
{
    private static readonly string[] InstantFormats = ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

    public static DateOnly? Date(this Field field)
    {
        if (field.String() is not { } text)
        {
            return null;
        }

        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
        {
            return date;
        }

        Report(field, text, DateForm().IsMatch(text), "a date such as 1961-04-30");
        return null;
    }

    public static DateTimeOffset? Instant(this Field field)
    {
        if (field.String() is not { } text)
        {
            return null;
        }

        var form = InstantForm().Match(text);
        // RFC 3339 section 4.3: -00:00 says that the offset is not known.
        if (form.Success && form.Groups["offset"].Value is "" or "-00:00")
        {
            field.Problems.Add(IntakeProblems.InstantWithoutOffset, field.Path, $"is \"{text}\", without the offset of the place.", text);
            return null;
        }

        if (form.Success && DateTimeOffset.TryParseExact(text, InstantFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant))
        {
            return instant;
        }

        Report(field, text, form.Success, "a time such as 2026-03-02T09:05:00+01:00");
        return null;
    }

    private static void Report(Field field, string text, bool rightForm, string expected)
    {
        if (rightForm)
        {
            field.Problems.Add(IntakeProblems.ImpossibleDate, field.Path, $"is \"{text}\", which does not exist.", text);
        }
        else
        {
            field.Problems.Add(IntakeProblems.NotADate, field.Path, $"is \"{ProblemList.Shown(text)}\"; {expected} is required.", text, $"Write {expected}.");
        }
    }

    [GeneratedRegex(@"^[0-9]{4}-[0-9]{2}-[0-9]{2}\z")]
    private static partial Regex DateForm();

    [GeneratedRegex(@"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,7})?(?<offset>Z|[+-][0-9]{2}:[0-9]{2})?\z")]
    private static partial Regex InstantForm();
}
