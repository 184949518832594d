using System.Xml.Linq;
using HandFhirBridge.Service.Plots;

namespace HandFhirBridge.Service.Reports.Pictures;

/// <summary>The picture as SVG that a page can hold under a content security policy: no style attribute, a title and a description.</summary>
internal static class SvgPicture
{
    /// <summary>The element, as wide as its place.</summary>
    /// <param name="report">What it shows.</param>
    /// <param name="title">Its name.</param>
    public static XElement Of(SessionReport report, string title)
    {
        var height = TrialPicture.HeightOf(report);
        var picture = PlotMarkup.Of(TrialPicture.Of(report, TrialPicture.Width), TrialPicture.Width, height);
        picture.Add(
            new XAttribute("role", "img"),
            new XAttribute("aria-labelledby", "picture-title picture-desc"));
        picture.AddFirst(
            new XElement(PlotMarkup.Svg + "title", new XAttribute("id", "picture-title"), title),
            new XElement(PlotMarkup.Svg + "desc", new XAttribute("id", "picture-desc"), TrialPicture.Description(report)));
        return picture;
    }
}
