using System.Globalization;
using CsvHelper;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Charts;

/// <summary>A course as a comma-separated file (RFC 4180): one line for each session, task or total, and hand.</summary>
internal static class CourseFile
{
    private static readonly string[] Columns =
    [
        "site", "session", "revision", "started_at", "age_years", "subject", "title", "hand", "hand_role", "kind", "outcome", "seconds",
        "norm_set", "norm_evidence", "norm_sex", "norm_mean", "norm_sd", "z", "percent_of_mean", "judgement", "break",
        "change_since_first", "minimal_detectable_change", "verdict", "departures", "reason", "observation", "report",
    ];

    // A spreadsheet takes text that begins with certain signs for a formula; numbers are not text.
    private static readonly CsvWriterOptions Form = new() { HasHeader = false, Injection = CsvInjection.Escape };

    /// <summary>The text of the file.</summary>
    public static string Of(Course course)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = CsvWriter.Create(text, Form, leaveOpen: true))
        {
            Write(csv, Columns);
            foreach (var series in course.Series)
            {
                foreach (var point in series.Points)
                {
                    Write(csv, [.. Line(course.Sessions[point.Session], series, point)]);
                }
            }
        }

        return text.ToString();
    }

    private static void Write(CsvWriter csv, object?[] fields)
    {
        foreach (var field in fields)
        {
            csv.WriteField(field);
        }

        csv.EndRecord();
    }

    private static IEnumerable<object?> Line(CourseSession session, CourseSeries series, CoursePoint point) =>
    [
        session.Site, session.SessionId, session.Revision, session.StartedAt.ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture),
        session.AgeInYears, series.Subject, series.Title, WireName.Of(series.Hand), WireName.Of(point.Role), WireName.Of(point.Kind), point.Outcome,
        point.Seconds, Joined(point, n => n.Set), Joined(point, n => WireName.Of(n.Evidence)), Joined(point, n => WireName.Of(n.Sex)),
        point.NormMean ?? Number(point, n => n.Mean), Number(point, n => n.StandardDeviation),
        point.Z, point.PercentOfMean, point.Judgement is { } judgement ? Words.Of(judgement) : null, point.Break,
        point.Change, point.MinimalDetectableChange, point.Verdict is { } verdict ? Words.Of(verdict) : null,
        string.Join(" | ", point.Departures), point.Reason, point.Observation, $"DiagnosticReport/{session.ReportId}",
    ];

    private static string Joined(CoursePoint point, Func<ReportNorm, string> part) => string.Join(" | ", point.Norms.Select(part));

    // Where the sex is not known two norms stand beside a time.
    private static object Number(CoursePoint point, Func<ReportNorm, decimal> part) => point.Norms is [var norm]
        ? part(norm)
        : Joined(point, n => part(n).ToString(CultureInfo.InvariantCulture));
}
