using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Reports.Contents;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Series;

namespace HandFhirBridge.Service.Reports.Pictures;

/// <summary>One trial in the picture: its norm band, its mark and its words.</summary>
/// <param name="model">Where it is drawn.</param>
/// <param name="row">The trial.</param>
/// <param name="place">0-based place of its task.</param>
/// <param name="longest">End of the time axis, seconds.</param>
/// <param name="sex">Which norms are shown.</param>
internal sealed class Lane(PlotModel model, ReportRow row, int place, double longest, SexForNorm sex)
{
    /// <summary>Height of a task with its title and two lanes.</summary>
    public const double TaskHeight = 3.2;

    private const double HalfBand = 0.38;

    private readonly double middle = (place * TaskHeight) + (row.Hand == Hand.Left ? 1.45 : 2.45);

    /// <summary>Writes a task's title above its lanes.</summary>
    public static void AddTitle(PlotModel model, string title, int place) =>
        model.Annotations.Add(Words(title, 0, (place * TaskHeight) + 0.5, HorizontalAlignment.Left, Ink.Text, FontWeights.Bold, -39));

    /// <summary>Draws it.</summary>
    public void Add()
    {
        model.Annotations.Add(Words(row.Hand == Hand.Left ? "left" : "right", 0, middle, HorizontalAlignment.Right, Ink.Text, FontWeights.Normal, -4));
        foreach (var (norm, index) in row.Norms.OrderBy(n => n.Sex).Select((norm, index) => (norm, index)))
        {
            AddBand(norm, index);
        }

        switch (row.Outcome)
        {
            case TrialOutcome.Completed:
                AddMark((double)row.Seconds!.Value);
                break;
            case TrialOutcome.StoppedAtCap:
                AddBound();
                break;
            default:
                AddWords($"no time: {Output.Words.Of(row.Outcome)}", BandEnd(), Ink.Text, FontWeights.Normal);
                break;
        }
    }

    private double BandEnd() => row.Norms.IsEmpty ? longest * 0.02 : row.Norms.Max(n => (double)(n.Mean + (2 * n.StandardDeviation)));

    // Two norms share the lane, women above men; the words say which.
    private void AddBand(ReportNorm norm, int index)
    {
        var height = 2 * HalfBand / row.Norms.Length;
        var top = middle - HalfBand + (index * height);
        var mean = (double)norm.Mean;
        var reach = 2 * (double)norm.StandardDeviation;
        model.Annotations.Add(new RectangleAnnotation
        {
            MinimumX = Math.Max(0, mean - reach), MaximumX = mean + reach, MinimumY = top, MaximumY = top + height,
            Fill = Ink.Band, Stroke = sex == SexForNorm.Unknown ? Ink.Line : Ink.Band, StrokeThickness = 0.5, Layer = AnnotationLayer.BelowSeries,
        });
        var stroke = new LineSeries { Color = Ink.Line, StrokeThickness = 1.2 };
        stroke.Points.AddRange([new(mean, top), new(mean, top + height)]);
        model.Series.Add(stroke);
    }

    private void AddMark(double seconds)
    {
        var slow = row.Judgement == Judgement.Slow;
        var mark = new ScatterSeries
        {
            MarkerType = row.Hand == Hand.Left ? MarkerType.Triangle : MarkerType.Square,
            MarkerSize = row.Hand == Hand.Left ? 4.5 : 3.5,
            MarkerFill = slow ? Ink.Slow : Ink.Text,
            MarkerStroke = OxyColors.White,
            MarkerStrokeThickness = 0.6,
        };
        mark.Points.Add(new(seconds, middle));
        model.Series.Add(mark);
        AddWords(Phrases.Result(row) + (slow ? " SLOW" : ""), Math.Max(seconds, BandEnd()), slow ? Ink.Slow : Ink.Text, slow ? FontWeights.Bold : FontWeights.Normal);
    }

    // The words come first and the arrow leaves the axis behind them: it has no end that could be read as a time.
    private void AddBound()
    {
        var begin = BandEnd();
        AddWords($"stopped: {Phrases.Result(row)}", begin, Ink.Slow, FontWeights.Bold);
        model.Annotations.Add(new ArrowAnnotation
        {
            StartPoint = new(Math.Min(begin + (longest * 0.45), longest * 0.9), middle), EndPoint = new(longest * 0.99, middle),
            Color = Ink.Slow, StrokeThickness = 1.2, HeadLength = 6, HeadWidth = 3,
        });
    }

    private void AddWords(string text, double from, OxyColor color, double weight) =>
        model.Annotations.Add(Words(text, from, middle, HorizontalAlignment.Left, color, weight, 7));

    private static TextAnnotation Words(string text, double x, double y, HorizontalAlignment side, OxyColor color, double weight, double offset) => new()
    {
        Text = text, TextPosition = new(x, y), TextHorizontalAlignment = side, TextVerticalAlignment = VerticalAlignment.Middle, Offset = new(offset, 0),
        Stroke = OxyColors.Transparent, Padding = new(0), TextColor = color, FontWeight = weight, ClipByXAxis = false, ClipByYAxis = false,
    };
}
