using OxyPlot;
using PdfSharp.Drawing;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Lets the plotter draw on a page of a PDF: the same picture as on the page, as vectors and text.</summary>
/// <param name="graphics">The page.</param>
internal sealed class PlotCanvas(XGraphics graphics) : RenderContextBase
{
    /// <inheritdoc/>
    public override int ClipCount => clips;

    private int clips;

    // Nothing in the picture reaches beyond its frame.
    public override void PushClip(OxyRect clippingRectangle) => clips++;

    public override void PopClip() => clips--;

    public override void DrawLine(
        IList<ScreenPoint> points, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode, double[] dashArray, LineJoin lineJoin)
    {
        if (stroke.IsVisible() && thickness > 0 && points.Count > 1)
        {
            graphics.DrawLines(Pen(stroke, thickness), [.. points.Select(Place)]);
        }
    }

    public override void DrawPolygon(
        IList<ScreenPoint> points, OxyColor fill, OxyColor stroke, double thickness, EdgeRenderingMode edgeRenderingMode, double[] dashArray, LineJoin lineJoin)
    {
        if (points.Count < 2)
        {
            return;
        }

        if (fill.IsVisible())
        {
            graphics.DrawPolygon(Brush(fill), [.. points.Select(Place)], XFillMode.Alternate);
        }

        if (stroke.IsVisible() && thickness > 0)
        {
            graphics.DrawPolygon(Pen(stroke, thickness), [.. points.Select(Place)]);
        }
    }

    public override void DrawText(
        ScreenPoint p, string text, OxyColor fill, string fontFamily, double fontSize, double fontWeight, double rotation,
        HorizontalAlignment horizontalAlignment, VerticalAlignment verticalAlignment, OxySize? maxSize)
    {
        if (string.IsNullOrEmpty(text) || !fill.IsVisible())
        {
            return;
        }

        var state = graphics.Save();
        graphics.TranslateTransform(p.X, p.Y);
        if (rotation != 0)
        {
            graphics.RotateTransform(rotation);
        }

        graphics.DrawString(text, Font(fontSize, fontWeight), Brush(fill), 0, 0, new XStringFormat
        {
            Alignment = horizontalAlignment switch { HorizontalAlignment.Left => XStringAlignment.Near, HorizontalAlignment.Right => XStringAlignment.Far, _ => XStringAlignment.Center },
            LineAlignment = verticalAlignment switch { VerticalAlignment.Top => XLineAlignment.Near, VerticalAlignment.Bottom => XLineAlignment.Far, _ => XLineAlignment.Center },
        });
        graphics.Restore(state);
    }

    public override OxySize MeasureText(string text, string fontFamily, double fontSize, double fontWeight)
    {
        if (string.IsNullOrEmpty(text))
        {
            return OxySize.Empty;
        }

        var size = graphics.MeasureString(text, Font(fontSize, fontWeight));
        return new(size.Width, size.Height);
    }

    private static XFont Font(double size, double weight) => Typeface.Of(double.IsNaN(size) ? Pictures.TrialPicture.FontSize : size, weight > 500);

    private static XPoint Place(ScreenPoint point) => new(point.X, point.Y);

    private static XPen Pen(OxyColor color, double thickness) => new(Color(color), thickness);

    private static XSolidBrush Brush(OxyColor color) => new(Color(color));

    private static XColor Color(OxyColor color) => XColor.FromArgb(color.A, color.R, color.G, color.B);
}
