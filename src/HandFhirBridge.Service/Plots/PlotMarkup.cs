using System.Globalization;
using System.Xml.Linq;
using OxyPlot;

namespace HandFhirBridge.Service.Plots;

/// <summary>A plot as SVG that a page can hold under a content security policy: no style attribute, and as wide as its place.</summary>
internal static class PlotMarkup
{
    /// <summary>Namespace of its elements.</summary>
    public static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The element, without a name yet.</summary>
    /// <param name="model">The plot.</param>
    /// <param name="width">Width it is laid out for, CSS px.</param>
    /// <param name="height">Height it is laid out for, CSS px.</param>
    public static XElement Of(PlotModel model, double width, double height)
    {
        var picture = XElement.Parse(new SvgExporter { Width = width, Height = height, UseVerticalTextAlignmentWorkaround = true }.ExportToString(model));
        picture.RemoveAttributes();
        picture.SetAttributeValue("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {width} {height}"));
        foreach (var element in picture.Descendants())
        {
            Unstyle(element);
        }

        return picture;
    }

    // Every property the plotter writes has a presentation attribute of the same name (SVG 1.1, appendix N).
    private static void Unstyle(XElement element)
    {
        if (element.Attribute("style") is not { } style)
        {
            return;
        }

        foreach (var part in style.Value.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            element.SetAttributeValue(part[..colon].Trim(), part[(colon + 1)..].Trim());
        }

        style.Remove();
    }
}
