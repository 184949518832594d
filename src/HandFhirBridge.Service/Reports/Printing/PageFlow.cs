using System.Globalization;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Fills pages from the top down; everything drawn is tagged, or marked as an artifact that a screen reader leaves out.</summary>
internal sealed class PageFlow
{
    /// <summary>White border, points (15 mm).</summary>
    private const double Margin = 42.5;

    private readonly PdfDocument document;
    private readonly PaperSize paper;
    private readonly string footer;
    private readonly int pages;
    private readonly double bottom;

    /// <param name="document">Gets the pages.</param>
    /// <param name="paper">Their size.</param>
    /// <param name="footer">At the foot of each.</param>
    /// <param name="pages">How many there will be.</param>
    public PageFlow(PdfDocument document, PaperSize paper, string footer, int pages)
    {
        (this.document, this.paper, this.footer, this.pages) = (document, paper, footer, pages);
        Tags = UAManager.ForDocument(document).StructureBuilder;
        Break();
        Width = Page.Width.Point - (2 * Margin);
        bottom = Page.Height.Point - Margin - Typeface.LineOf(Typeface.Small) - 4;
    }

    public StructureBuilder Tags { get; }

    public XGraphics Graphics { get; private set; } = null!;

    public static double Left => Margin;

    public double Width { get; }

    /// <summary>Where the next thing goes.</summary>
    public double Top { get; set; }

    private PdfPage Page { get; set; } = null!;

    /// <summary>Begins a new page if less than <paramref name="height"/> is left; true if it did.</summary>
    public bool Ensure(double height)
    {
        if (Top + height <= bottom || Top <= Margin)
        {
            return false;
        }

        Break();
        return true;
    }

    /// <summary>Writes lines of text as one tagged element.</summary>
    public void Write(string text, XFont font, PdfBlockLevelElementTag tag, double after = 4)
    {
        var lines = Lines.Of(Graphics, text, font, Width);
        Ensure(Math.Min(lines.Count, 40) * Typeface.LineOf(font));
        foreach (var part in lines.Chunk(40))
        {
            Ensure(part.Length * Typeface.LineOf(font));
            Tags.BeginElement(tag);
            WriteLines(part, font, XBrushes.Black, Left, Top, Width, number: false);
            Tags.End();
            Top += part.Length * Typeface.LineOf(font);
        }

        Top += after;
    }

    /// <summary>Draws lines at a place; the element they belong to is open.</summary>
    public void WriteLines(IEnumerable<string> lines, XFont font, XBrush brush, double left, double top, double width, bool number)
    {
        foreach (var line in lines)
        {
            Graphics.DrawString(line, font, brush, number ? left + width : left, top + font.Size, number ? XStringFormats.BaseLineRight : XStringFormats.BaseLineLeft);
            top += Typeface.LineOf(font);
        }
    }

    /// <summary>Draws what says nothing by itself.</summary>
    public void Decorate(Action<XGraphics> draw)
    {
        Tags.BeginArtifact();
        draw(Graphics);
        Tags.End();
    }

    /// <summary>Ends the last page.</summary>
    public void Finish() => Graphics.Dispose();

    private void Break()
    {
        Graphics?.Dispose();
        Page = document.AddPage();
        Page.Size = paper == PaperSize.A4 ? PdfSharp.PageSize.A4 : PdfSharp.PageSize.Letter;
        Graphics = XGraphics.FromPdfPage(Page);
        Top = Margin;
        WriteFooter();
    }

    // Written first: the library tags a page only until the next one begins.
    private void WriteFooter()
    {
        var line = string.Create(CultureInfo.InvariantCulture, $"{footer}; page {document.PageCount} of {pages}");
        var width = Page.Width.Point - (2 * Margin);
        Decorate(g => g.DrawString(Lines.Of(g, line, Typeface.Small, width)[0], Typeface.Small, XBrushes.Black, Margin, Page.Height.Point - Margin, XStringFormats.BaseLineLeft));
    }
}
