using System.Globalization;
using System.Xml.Linq;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Plots;
using OxyPlot;

namespace HandFhirBridge.Service.Charts.Pictures;

/// <summary>A series as SVG that a page can hold under a content security policy: no style attribute, a name, a description, points to be visited by keyboard.</summary>
internal static class SeriesPicture
{
    // Fits a phone at its natural size, so that its words are as large as those of the page.
    private const int Width = 380;
    private const int Height = 250;

    // WCAG 2.2, 2.5.8: smallest target, CSS px.
    private const double Target = 24;
    // OxyPlot's gaps of one pixel read as a solid line on paper: dash, dot and long dash with dot are told apart by these.
    private static readonly Dictionary<string, string> Dashes = new() { ["4,1"] = "6,4", ["1,1"] = "1.5,3.5", ["10,1,1,1"] = "10,3,2,3" };

    /// <summary>The markup.</summary>
    public static string Of(Course course, CourseSeries series)
    {
        var plot = new SeriesPlot(course, series, SeriesScale.Of(course, series.Subject));
        var model = plot.Build();
        var picture = PlotMarkup.Of(model, Width, Height);
        var id = $"picture-{series.Subject}-{WireName.Of(series.Hand)}";
        foreach (var element in picture.Descendants())
        {
            Rename(element, id);
        }

        picture.SetAttributeValue("role", "group");
        picture.SetAttributeValue("aria-labelledby", $"{id}-title");
        picture.SetAttributeValue("aria-describedby", $"{id}-desc");
        picture.SetAttributeValue("class", "picture");
        picture.AddFirst(
            new XElement(PlotMarkup.Svg + "title", new XAttribute("id", $"{id}-title"), CourseText.Title(series)),
            new XElement(PlotMarkup.Svg + "desc", new XAttribute("id", $"{id}-desc"), CourseText.Describe(course, series)));
        picture.Add(series.Points.Select(point => Visit(course, model, plot, point)));
        return picture.ToString(SaveOptions.DisableFormatting);
    }

    private static XElement Visit(Course course, PlotModel model, SeriesPlot plot, CoursePoint point)
    {
        var (x, key, y) = plot.Place(point);
        var (left, top) = (model.Axes[0].Transform(x), model.GetAxis(key).Transform(y));
        return new(
            PlotMarkup.Svg + "rect",
            new XAttribute("class", "visit"),
            new XAttribute("x", Number(left - (Target / 2))),
            new XAttribute("y", Number(top - (Target / 2))),
            new XAttribute("width", Number(Target)),
            new XAttribute("height", Number(Target)),
            new XAttribute("fill", "none"),
            new XAttribute("pointer-events", "all"),
            new XAttribute("role", "img"),
            new XAttribute("tabindex", point.Session == 0 ? "0" : "-1"),
            new XAttribute("data-point", point.Session),
            new XAttribute("aria-label", CourseText.Sentence(course, point)));
    }

    // Every picture numbers its clip paths from 1; on one page the first picture's would clip all others.
    private static void Rename(XElement element, string picture)
    {
        if (element.Name.LocalName == "clipPath")
        {
            element.SetAttributeValue("id", $"{picture}-{element.Attribute("id")!.Value}");
        }

        if (element.Attribute("clip-path") is { } clip)
        {
            clip.Value = clip.Value.Replace("url(#", $"url(#{picture}-", StringComparison.Ordinal);
        }

        if (element.Attribute("stroke-dasharray") is { } dashes && Dashes.TryGetValue(dashes.Value, out var wider))
        {
            dashes.Value = wider;
        }
    }

    private static string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
