using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Charts;

/// <summary>A course in words, for those who do not see the picture and for those who look closer.</summary>
internal static class CourseText
{
    /// <summary>Task and hand.</summary>
    public static string Title(CourseSeries series) => $"{series.Title}, {WireName.Of(series.Hand)} hand";

    /// <summary>What the picture of a series shows.</summary>
    public static string Describe(Course course, CourseSeries series)
    {
        var times = series.Points.Where(p => p.Kind == PointKind.Time).ToList();
        var parts = new List<string> { times.Count == 0 ? "No time in any session." : times.Count == 1 ? "One time." : $"{times.Count} times." };
        if (times.Count > 0)
        {
            parts.Add($"First {Seconds(times[0].Seconds)} on {Date(course, times[0])}, last {Seconds(times[^1].Seconds)} on {Date(course, times[^1])}.");
        }

        if (times.Count > 1)
        {
            parts.Add($"Fastest {Seconds(times.Min(p => p.Seconds))}, slowest {Seconds(times.Max(p => p.Seconds))}.");
        }

        Add(parts, series.Points.Count(p => p.Kind == PointKind.Bound), "stopped at the cap");
        Add(parts, series.Points.Count(p => p.Kind == PointKind.NoTime), "without a time");
        parts.AddRange(series.Points.Where(p => p.Break is not null).Select(p => $"Not to be compared across {Date(course, p)}: {p.Break}."));
        parts.Add("The table has every value.");
        return string.Join(' ', parts);
    }

    /// <summary>One point with its date, value, norm and verdict.</summary>
    public static string Sentence(Course course, CoursePoint point)
    {
        var parts = new List<string> { $"{Date(course, point)}: {Value(point)}" };
        parts.AddRange(point.Norms.Select(n => $"norm mean {Number(n.Mean)} s, SD {Number(n.StandardDeviation)} s ({WireName.Of(n.Sex)}, {n.AgeMin} to {n.AgeMax} years; {n.Set}, {Words.Of(n.Evidence)})"));
        if (point.NormMean is { } mean)
        {
            parts.Add($"norm means add up to {Number(mean)} s");
        }

        if (point.Judgement is { } judgement)
        {
            parts.Add($"z {Signed(point.Z!.Value)}, {Number(point.PercentOfMean!.Value)} % of the mean: {Words.Of(judgement)}");
        }

        if (point.Change is { } change)
        {
            parts.Add($"{Signed(change)} s since the first comparable time{(point.Verdict is { } verdict ? $": {Words.Of(verdict)} (minimal detectable change {Number(point.MinimalDetectableChange!.Value)} s)" : "")}");
        }

        if (!point.Departures.IsEmpty)
        {
            parts.Add($"departed from the standard: {string.Join(", ", point.Departures)}");
        }

        if (point.Break is { } why)
        {
            parts.Add($"not to be compared with earlier times: {why}");
        }

        return string.Join("; ", parts) + ".";
    }

    /// <summary>The value as it is to be read: a time, a bound, or why there is none.</summary>
    public static string Value(CoursePoint point) => point.Kind switch
    {
        PointKind.Time => Seconds(point.Seconds),
        PointKind.Bound => $"stopped at the cap, longer than {Seconds(point.Seconds)}",
        _ => $"no time, {point.Outcome}{(point.Reason is { } reason ? $" ({reason})" : "")}",
    };

    private static void Add(List<string> parts, int count, string what)
    {
        if (count > 0)
        {
            parts.Add($"{count} {(count == 1 ? "trial" : "trials")} {what}.");
        }
    }

    private static string Date(Course course, CoursePoint point) => course.Sessions[point.Session].StartedAt.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    private static string Seconds(decimal? seconds) => $"{Number(seconds!.Value)} s";

    private static string Number(decimal value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Signed(decimal value) => value.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture);
}
