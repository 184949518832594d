namespace HandFhirBridge.Service.Charts.Pictures;

/// <summary>What of a series is drawn as one: pieces of line, norm bands, bands of measurement error.</summary>
/// <param name="course">Gives the dates.</param>
/// <param name="series">What is drawn.</param>
internal sealed class LineRuns(Course course, CourseSeries series)
{
    /// <summary>Times that are joined: neighbours, with nothing missing and no break between.</summary>
    public IEnumerable<IReadOnlyList<CoursePoint>> Pieces() =>
        Grouped((earlier, later) => later.Break is null && earlier.Kind == PointKind.Time && later.Kind == PointKind.Time)
            .Where(piece => piece.Count > 1);

    /// <summary>Each norm as long as it applied, from halfway since the session before to halfway until the next.</summary>
    public IEnumerable<NormBand> Bands() => Grouped((earlier, later) => later.Break is null && Norm(earlier) == Norm(later))
        .Select(run => Norm(run[0]) is { } norm ? new NormBand(Begin(run[0]), End(run[^1]), norm.Mean, norm.Low, norm.High) : null)
        .OfType<NormBand>();

    /// <summary>First time of an unbroken run, less and more than the minimal detectable change, to the end of the run.</summary>
    public IEnumerable<(double From, double To, decimal Low, decimal High)> Errors()
    {
        foreach (var run in Grouped((_, later) => later.Break is null))
        {
            var times = run.Where(p => p.Kind == PointKind.Time).ToList();
            if (times.Count > 1 && times.Select(p => p.MinimalDetectableChange).OfType<decimal>().FirstOrDefault() is > 0 and var reach)
            {
                var begin = times[0].Seconds!.Value;
                yield return (Day(times[0]), Day(times[^1]), Math.Max(0, begin - reach), begin + reach);
            }
        }
    }

    /// <summary>Where the line breaks, with the reason in a few words.</summary>
    public IEnumerable<(double At, string Why)> Breaks() => series.Points.Where(p => p.Break is not null).Select(p => (Begin(p), Short(p.Break!)));

    private static string Short(string why) => why switch
    {
        _ when why.StartsWith("norm set", StringComparison.Ordinal) => "norm set changed",
        _ when why.StartsWith("hand now", StringComparison.Ordinal) => "hand role changed",
        _ => "protocol changed",
    };

    // Two norms, for an unknown sex, are no band: none of them is known to apply.
    private static (decimal Mean, decimal? Low, decimal? High)? Norm(CoursePoint point) => point switch
    {
        { Norms: [var norm] } => (norm.Mean, norm.Low, norm.High),
        { NormMean: { } mean } => (mean, null, null),
        _ => null,
    };

    private IEnumerable<List<CoursePoint>> Grouped(Func<CoursePoint, CoursePoint, bool> joined)
    {
        List<CoursePoint> run = [];
        foreach (var point in series.Points)
        {
            if (run.Count > 0 && !joined(run[^1], point))
            {
                yield return run;
                run = [];
            }

            run.Add(point);
        }

        if (run.Count > 0)
        {
            yield return run;
        }
    }

    private double Day(CoursePoint point) => SeriesScale.Day(course.Sessions[point.Session].StartedAt);

    private double Begin(CoursePoint point) => point.Session == 0 ? double.MinValue : Between(point.Session - 1, point.Session);

    private double End(CoursePoint point) => point.Session == course.Sessions.Length - 1 ? double.MaxValue : Between(point.Session, point.Session + 1);

    private double Between(int earlier, int later) =>
        (SeriesScale.Day(course.Sessions[earlier].StartedAt) + SeriesScale.Day(course.Sessions[later].StartedAt)) / 2;
}
