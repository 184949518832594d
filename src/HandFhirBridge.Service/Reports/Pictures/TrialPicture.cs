using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using OxyPlot;
using OxyPlot.Axes;

namespace HandFhirBridge.Service.Reports.Pictures;

/// <summary>
/// Both hands beside the norm band, task by task, as one plot for page and PDF. Hands are told apart by shape and word, slow
/// ones by word; a trial without a time has words in its lane and no mark, so that it never looks like zero seconds.
/// </summary>
internal static class TrialPicture
{
    /// <summary>Width for which the type is chosen.</summary>
    public const double Width = 400;

    /// <summary>Family of the type; the PDF embeds it, a browser takes the next best.</summary>
    public const string Font = "DejaVu Sans Condensed, Arial, sans-serif";

    /// <summary>Size of the type, in the units of <see cref="Width"/>.</summary>
    public const double FontSize = 11;

    /// <summary>Room on the left for the names of the lanes.</summary>
    private const double Names = 40;

    /// <summary>What the marks mean.</summary>
    public static string Key(SessionReport report) =>
        (report.SexForNorm == SexForNorm.Unknown
            ? "Grey bands: norm mean \u00b1 2 SD, that of women above that of men; none is applied. Stroke in a band: norm mean. "
            : "Grey band: norm mean \u00b1 2 SD; stroke in it: norm mean. A time right of the band is slow. ")
        + "Triangle: left hand. Square: right hand."
        + (report.Rows.Any(r => r.Outcome == TrialOutcome.StoppedAtCap) ? " Arrow: stopped at the cap, so the time is longer than the number on it." : "");

    /// <summary>Height that gives each task its room.</summary>
    public static double HeightOf(SessionReport report) => 42 + (report.Rows.Select(r => r.Task).Distinct().Count() * 50);

    /// <summary>The plot.</summary>
    /// <param name="report">What it shows.</param>
    /// <param name="width">Width it will be drawn at.</param>
    public static PlotModel Of(SessionReport report, double width)
    {
        var tasks = report.Rows.Select(r => (r.Task, r.Title)).Distinct().ToList();
        var longest = Longest(report);
        var model = new PlotModel
        {
            DefaultFont = Font,
            DefaultFontSize = FontSize,
            TextColor = Ink.Text,
            PlotAreaBorderThickness = new(0),
            PlotMargins = new(0, 2, 6, 36),
            Padding = new(0),
            IsLegendVisible = false,
        };
        model.Axes.Add(new LinearAxis
        {
            Position = AxisPosition.Bottom, StartPosition = Names / width, Minimum = 0, Maximum = longest, Title = "seconds", AxislineStyle = LineStyle.Solid, AxislineColor = Ink.Line,
            TicklineColor = Ink.Line, MajorGridlineStyle = LineStyle.Solid, MajorGridlineColor = Ink.Grid, MajorGridlineThickness = 0.5,
            MinimumPadding = 0, MaximumPadding = 0, StringFormat = "0",
        });
        // Lanes go down the page.
        model.Axes.Add(new LinearAxis { Position = AxisPosition.Left, Minimum = 0, Maximum = tasks.Count * Lane.TaskHeight, StartPosition = 1, EndPosition = 0, IsAxisVisible = false });
        for (var place = 0; place < tasks.Count; place++)
        {
            Lane.AddTitle(model, tasks[place].Title, place);
            foreach (var row in report.Rows.Where(r => r.Task == tasks[place].Task))
            {
                new Lane(model, row, place, longest, report.SexForNorm).Add();
            }
        }

        return model;
    }

    /// <summary>The same in words, for whoever does not see it.</summary>
    public static string Description(SessionReport report) => string.Join(" ", report.Rows.Select(row => string.Create(
        CultureInfo.InvariantCulture,
        $"{row.Title}, {(row.Hand == Hand.Left ? "left" : "right")} hand: {Contents.Phrases.Result(row)}, {Contents.Phrases.Judgement(row)}.")));

    // Room on the right for the words beside the longest time.
    private static double Longest(SessionReport report) => 1.45 * (double)report.Rows
        .SelectMany(r => r.Norms.Select(n => n.Mean + (2 * n.StandardDeviation)).Append(r.Outcome == TrialOutcome.Completed ? r.Seconds ?? 0 : 0))
        .Append(10).Max();
}
