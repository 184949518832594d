using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace HandFhirBridge.Service.Charts.Pictures;

/// <summary>The plot of one series: bands, line, marks. Everything is told by shape or words, nothing by colour alone.</summary>
/// <param name="course">What it is part of.</param>
/// <param name="series">What is drawn.</param>
/// <param name="scale">Axes.</param>
internal sealed class SeriesPlot(Course course, CourseSeries series, SeriesScale scale)
{
    /// <summary>Of the axis in seconds.</summary>
    public const string SecondsKey = "seconds";

    /// <summary>Of the strip above it, for trials stopped at the cap.</summary>
    public const string BoundKey = "bound";

    /// <summary>Of the strip below it, for trials without a time.</summary>
    public const string NoTimeKey = "no-time";

    private const double Strip = 0.13;
    private static readonly OxyColor Text = OxyColor.FromRgb(0x14, 0x24, 0x3a);
    private static readonly OxyColor Quiet = OxyColor.FromRgb(0x46, 0x54, 0x6a);
    private static readonly OxyColor Grid = OxyColor.FromRgb(0xe6, 0xe4, 0xdc);
    private static readonly OxyColor Band = OxyColor.FromRgb(0xd6, 0xdc, 0xe4);

    private readonly PlotModel model = new()
    {
        TextColor = Text, PlotAreaBorderColor = Quiet, PlotAreaBorderThickness = new(1), DefaultFontSize = 12, Background = OxyColors.White,
        DefaultFont = "DejaVu Sans", Padding = new(0, 8, 0, 0),
        // Room for the longest label in any font the reader's machine puts in its place: a figure that is cut off is a wrong figure.
        PlotMargins = new(66, 0, 16, 30),
    };

    /// <summary>The plot, not yet laid out.</summary>
    public PlotModel Build()
    {
        AddAxes();
        var line = new LineRuns(course, series);
        foreach (var band in line.Bands())
        {
            AddBand(band);
        }

        foreach (var run in line.Errors())
        {
            AddLevel(run.From, run.To, run.Low, LineStyle.Dot);
            AddLevel(run.From, run.To, run.High, LineStyle.Dot);
        }

        foreach (var (at, why) in line.Breaks())
        {
            AddBreak(at, why);
        }

        foreach (var piece in line.Pieces())
        {
            var drawn = new LineSeries { Color = Text, StrokeThickness = 1.6, YAxisKey = SecondsKey };
            drawn.Points.AddRange(piece.Select(p => new DataPoint(X(p), (double)p.Seconds!.Value)));
            model.Series.Add(drawn);
        }

        AddMarks();
        return model;
    }

    /// <summary>Where a point lies: its date, the axis and the value on it.</summary>
    public (double X, string Axis, double Y) Place(CoursePoint point) => point.Kind switch
    {
        PointKind.Time => (X(point), SecondsKey, (double)point.Seconds!.Value),
        PointKind.Bound => (X(point), BoundKey, 0),
        _ => (X(point), NoTimeKey, 0),
    };

    private double X(CoursePoint point) => SeriesScale.Day(course.Sessions[point.Session].StartedAt);

    private void AddAxes()
    {
        model.Axes.Add(new DateTimeAxis
        {
            Position = AxisPosition.Bottom, Minimum = scale.From, Maximum = scale.To, StringFormat = "yyyy-MM-dd", IntervalLength = 110,
            TicklineColor = Quiet, AxislineColor = Quiet, MinorTickSize = 0, MajorTickSize = 4,
        });
        model.Axes.Add(new LinearAxis
        {
            Key = SecondsKey, Position = AxisPosition.Left, Minimum = 0, Maximum = scale.Longest, MajorGridlineStyle = LineStyle.Solid,
            MajorGridlineColor = Grid, TicklineColor = Quiet, MinorTickSize = 0, IntervalLength = 40,
            StartPosition = scale.Missing ? Strip : 0, EndPosition = scale.Bounds ? 1 - Strip : 1, LabelFormatter = v => string.Create(CultureInfo.InvariantCulture, $"{v:0.##} s"),
        });
        AddStrip(BoundKey, "> cap", 1 - Strip, 1, scale.Bounds);
        AddStrip(NoTimeKey, "no time", 0, Strip, scale.Missing);
    }

    private void AddStrip(string key, string label, double from, double to, bool shown)
    {
        if (!shown)
        {
            return;
        }

        model.Axes.Add(new LinearAxis
        {
            Key = key, Position = AxisPosition.Left, Minimum = -0.5, Maximum = 0.5, MajorStep = 1, MinorStep = 1, StartPosition = from, EndPosition = to,
            LabelFormatter = _ => label, TickStyle = TickStyle.None, MinimumPadding = 0, MaximumPadding = 0,
        });
        model.Annotations.Add(new LineAnnotation
        {
            Type = LineAnnotationType.Horizontal, Y = key == BoundKey ? -0.5 : 0.5, YAxisKey = key, Color = Quiet, LineStyle = LineStyle.Solid, StrokeThickness = 0.7,
        });
    }

    private void AddBand(NormBand band)
    {
        var (from, to) = (Math.Max(scale.From, band.From), Math.Min(scale.To, band.To));
        if (band.High is { } high)
        {
            model.Annotations.Add(new RectangleAnnotation
            {
                MinimumX = from, MaximumX = to, MinimumY = (double)band.Low!.Value, MaximumY = (double)high, Fill = Band,
                Layer = AnnotationLayer.BelowAxes, YAxisKey = SecondsKey,
            });
        }

        AddLevel(from, to, band.Mean, LineStyle.Dash);
    }

    private void AddLevel(double from, double to, decimal seconds, LineStyle style) => model.Annotations.Add(new LineAnnotation
    {
        Type = LineAnnotationType.Horizontal, Y = (double)seconds, MinimumX = from, MaximumX = to, LineStyle = style, Color = Quiet, StrokeThickness = 1.3,
        YAxisKey = SecondsKey, Layer = AnnotationLayer.BelowSeries,
    });

    private void AddBreak(double at, string why)
    {
        model.Annotations.Add(new LineAnnotation
        {
            Type = LineAnnotationType.Vertical, X = at, LineStyle = LineStyle.LongDashDot, Color = Text, StrokeThickness = 1.2, YAxisKey = SecondsKey,
            Text = why, TextColor = Text, FontSize = 10, TextOrientation = AnnotationTextOrientation.Vertical, TextLinePosition = 0.98,
            TextHorizontalAlignment = HorizontalAlignment.Right, TextVerticalAlignment = VerticalAlignment.Top,
        });
    }

    private void AddMarks()
    {
        var hand = series.Hand == Hand.Left ? MarkerType.Circle : MarkerType.Square;
        Mark(PointKind.Time, hand, p => p.Departures.IsEmpty, Text);
        Mark(PointKind.Time, hand, p => !p.Departures.IsEmpty, OxyColors.White);
        Mark(PointKind.Bound, MarkerType.Triangle, _ => true, Text);
        Mark(PointKind.NoTime, MarkerType.Cross, _ => true, Text);
    }

    private void Mark(PointKind kind, MarkerType type, Func<CoursePoint, bool> which, OxyColor fill)
    {
        var chosen = series.Points.Where(p => p.Kind == kind && which(p)).Select(Place).ToList();
        if (chosen.Count == 0)
        {
            return;
        }

        var marks = new ScatterSeries
        {
            MarkerType = type, MarkerSize = 4, MarkerFill = fill, MarkerStroke = Text, MarkerStrokeThickness = type == MarkerType.Cross ? 2 : 1.4, YAxisKey = chosen[0].Axis,
        };
        marks.Points.AddRange(chosen.Select(p => new ScatterPoint(p.X, p.Y)));
        model.Series.Add(marks);
    }
}
