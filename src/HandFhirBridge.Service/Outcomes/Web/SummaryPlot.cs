using System.Xml.Linq;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Plots;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace HandFhirBridge.Service.Outcomes.Web;

/// <summary>Times of each group: a bar from the first to the third quartile with the median, and the Kaplan–Meier median as a ring. The table says the same.</summary>
internal static class SummaryPlot
{
    /// <summary>What the signs mean.</summary>
    public const string Key = "Bar: middle half of the completed trials, with their median. Ring: Kaplan-Meier median, which counts stopped trials as longer than the cap.";

    private const double Width = 720;
    private const double RowHeight = 26;
    private static readonly OxyColor Text = OxyColor.FromRgb(0x14, 0x24, 0x3a);
    private static readonly OxyColor Bar = OxyColor.FromRgb(0xb7, 0xc6, 0xd6);

    /// <summary>The picture; null if no group has a time.</summary>
    public static XElement? Of(OutcomeSummary summary)
    {
        var groups = summary.Groups.Where(g => g.Times is not null).Reverse().ToList();
        if (groups.Count == 0)
        {
            return null;
        }

        var model = new PlotModel { TextColor = Text, DefaultFont = "DejaVu Sans", DefaultFontSize = 12, Background = OxyColors.White, PlotMargins = new(230, 4, 16, 40), PlotAreaBorderThickness = new(1, 0, 0, 1) };
        var names = new CategoryAxis { Position = AxisPosition.Left, GapWidth = 0.4, IsTickCentered = true };
        names.Labels.AddRange(groups.Select(g => string.Join(", ", g.Key.Select(Words.Of)) is { Length: > 0 } name ? name : "all"));
        model.Axes.Add(names);
        model.Axes.Add(new LinearAxis { Position = AxisPosition.Bottom, Minimum = 0, Title = "seconds", MajorGridlineStyle = LineStyle.Solid, MajorGridlineColor = OxyColor.FromRgb(0xe6, 0xe4, 0xdc), MaximumPadding = 0.05 });
        var bars = new RectangleBarSeries { FillColor = Bar, StrokeColor = Text, StrokeThickness = 1 };
        var rings = new ScatterSeries { MarkerType = MarkerType.Circle, MarkerSize = 5, MarkerFill = OxyColors.White, MarkerStroke = Text, MarkerStrokeThickness = 2 };
        model.Series.Add(bars);
        foreach (var (group, place) in groups.Select((g, i) => (g, i)))
        {
            var times = group.Times!;
            bars.Items.Add(new(times.LowerQuartile, place - 0.32, times.UpperQuartile, place + 0.32));
            var median = new LineSeries { Color = Text, StrokeThickness = 3 };
            median.Points.AddRange([new(times.Median, place - 0.32), new(times.Median, place + 0.32)]);
            model.Series.Add(median);
            if (group.Survival?.Median is { } survived)
            {
                rings.Points.Add(new(survived, place));
            }
        }

        model.Series.Add(rings);
        var picture = PlotMarkup.Of(model, Width, 60 + (RowHeight * groups.Count));
        picture.SetAttributeValue("role", "img");
        picture.SetAttributeValue("aria-label", "Times of each group; the table below says the same.");
        return picture;
    }
}
