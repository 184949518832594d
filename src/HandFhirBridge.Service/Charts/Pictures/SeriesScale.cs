namespace HandFhirBridge.Service.Charts.Pictures;

/// <summary>Axes that the pictures of both hands of one task share, so that they can be compared by eye.</summary>
/// <param name="From">First date shown, in days since 1899-12-30.</param>
/// <param name="To">Last date shown.</param>
/// <param name="Longest">End of the time axis, seconds.</param>
/// <param name="Bounds">True if some trial was stopped at the cap.</param>
/// <param name="Missing">True if some trial has no time.</param>
internal sealed record SeriesScale(double From, double To, double Longest, bool Bounds, bool Missing)
{
    /// <summary>The scale of the series of one subject.</summary>
    public static SeriesScale Of(Course course, string subject)
    {
        var points = course.Series.Where(s => s.Subject == subject).SelectMany(s => s.Points).ToList();
        var first = Day(course.Sessions[0].StartedAt);
        var last = Day(course.Sessions[^1].StartedAt);
        // A single session, or several in one week, still need a width.
        var margin = Math.Max(4, (last - first) * 0.06);
        var longest = points.Where(p => p.Kind == PointKind.Time).Select(p => p.Seconds!.Value + (p.Change is null ? p.MinimalDetectableChange ?? 0 : 0))
            .Concat(points.SelectMany(p => p.Norms).Select(n => n.High))
            .Concat(points.Select(p => p.NormMean).OfType<decimal>())
            .DefaultIfEmpty(10)
            .Max();
        return new(
            first - margin, last + margin, (double)longest * 1.1, points.Any(p => p.Kind == PointKind.Bound), points.Any(p => p.Kind == PointKind.NoTime));
    }

    /// <summary>The day and hour at the place of the session.</summary>
    public static double Day(DateTimeOffset moment) => OxyPlot.Axes.DateTimeAxis.ToDouble(moment.DateTime);
}
