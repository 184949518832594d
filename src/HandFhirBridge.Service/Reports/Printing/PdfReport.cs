using HandFhirBridge.Service.Reports.Contents;
using HandFhirBridge.Service.Reports.Pictures;
using OxyPlot;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>The contents of a report as a tagged PDF. The same contents give the same bytes.</summary>
internal static class PdfReport
{
    /// <summary>Size of the picture on paper beside that on a page.</summary>
    private const double PictureScale = 0.86;

    private const int UsualPages = 3;

    /// <summary>Bytes of a usual report before it is compressed; a longer one makes room for itself.</summary>
    private const int UsualLength = 256 * 1024;

    // The library keeps its fonts process-wide.
    private static readonly Lock Press = new();

    /// <summary>Makes it.</summary>
    /// <param name="contents">What it says.</param>
    /// <param name="paper">Size of its pages.</param>
    public static byte[] Of(ReportContents contents, PaperSize paper) => SteadyBytes.Of(Print(contents, paper));

    /// <summary>Prints a page that says nothing, so that the first report finds typefaces read and code compiled.</summary>
    public static void WarmUp()
    {
        Table table = new("Table", [new("Column", 1)], [new(["Cell"])]);
        ReportContents page = new("Title", "Footer", DateTimeOffset.UnixEpoch, [], [new("Heading", [new Points([new("Name", "Text")]), table])]);
        lock (Press)
        {
            SteadyBytes.Of(Print(page, PaperSize.A4, pages: 1).Bytes);
        }
    }

    private static byte[] Print(ReportContents contents, PaperSize paper)
    {
        lock (Press)
        {
            // How many pages there are is known once they are filled; most reports have as many as guessed.
            var (bytes, pages) = Print(contents, paper, UsualPages);
            return pages == UsualPages ? bytes : Print(contents, paper, pages).Bytes;
        }
    }

    private static (byte[] Bytes, int Pages) Print(ReportContents contents, PaperSize paper, int pages)
    {
        using var document = new PdfDocument();
        document.Info.Title = contents.Title;
        document.Info.Subject = contents.Footer;
        document.Info.CreationDate = contents.Issued.UtcDateTime;
        document.Info.ModificationDate = contents.Issued.UtcDateTime;
        document.ViewerPreferences.DisplayDocTitle = true;
        (document.Options.NoCompression, document.Options.CompressContentStreams) = (true, false); // SteadyBytes compresses
        UAManager.ForDocument(document).SetDocumentLanguage("en");
        var flow = new PageFlow(document, paper, contents.Footer, pages);
        flow.Write(contents.Title, Typeface.Title, PdfBlockLevelElementTag.Heading1);
        foreach (var notice in contents.Notices)
        {
            Box(flow, notice);
        }

        foreach (var section in contents.Sections)
        {
            Write(flow, section);
        }

        flow.Finish();
        var count = document.PageCount;
        using var target = new MemoryStream(UsualLength);
        document.Save(target);
        return (target.ToArray(), count);
    }

    private static void Write(PageFlow flow, ReportSection section)
    {
        if (section.Heading is { } heading)
        {
            // A heading is not left alone at the foot of a page.
            flow.Ensure(60);
            flow.Top += 4;
            flow.Write(heading, Typeface.Heading, PdfBlockLevelElementTag.Heading2, 3);
        }

        foreach (var block in section.Blocks)
        {
            Write(flow, block);
        }
    }

    private static void Write(PageFlow flow, ReportBlock block)
    {
        switch (block)
        {
            case Paragraph paragraph:
                flow.Write(paragraph.Text, Typeface.Body, PdfBlockLevelElementTag.Paragraph);
                break;
            case Points points:
                Write(flow, points);
                break;
            case Table table:
                new PrintedTable(flow, table).Write();
                break;
            case Picture picture:
                Draw(flow, picture.Report);
                break;
            default:
                throw new InvalidOperationException($"No way to print a {block.GetType().Name}.");
        }
    }

    private static void Write(PageFlow flow, Points points)
    {
        const double names = 112;
        foreach (var (name, text) in points.Items)
        {
            var heads = Lines.Of(flow.Graphics, name, Typeface.Strong, names - 6);
            foreach (var (lines, first) in Lines.Of(flow.Graphics, text, Typeface.Body, flow.Width - names).Chunk(40).Select((part, place) => (part, place == 0)))
            {
                var height = Math.Max(lines.Length, first ? heads.Count : 0) * Typeface.LineOf(Typeface.Body);
                flow.Ensure(height);
                flow.Tags.BeginElement(PdfBlockLevelElementTag.Paragraph);
                flow.WriteLines(first ? heads : [], Typeface.Strong, XBrushes.Black, PageFlow.Left, flow.Top, names, number: false);
                flow.WriteLines(lines, Typeface.Body, XBrushes.Black, PageFlow.Left + names, flow.Top, flow.Width - names, number: false);
                flow.Tags.End();
                flow.Top += height + 2;
            }
        }

        flow.Top += 3;
    }

    // In words, and framed: it must be seen on a copy without colour too.
    private static void Box(PageFlow flow, string notice)
    {
        var lines = Lines.Of(flow.Graphics, notice, Typeface.Strong, flow.Width - 12);
        var height = (lines.Count * Typeface.LineOf(Typeface.Strong)) + 8;
        flow.Decorate(g => g.DrawRectangle(new XPen(XColors.Black, 1.4), PageFlow.Left, flow.Top, flow.Width, height));
        flow.Tags.BeginElement(PdfBlockLevelElementTag.Paragraph);
        flow.WriteLines(lines, Typeface.Strong, XBrushes.Black, PageFlow.Left + 6, flow.Top + 4, flow.Width - 12, number: false);
        flow.Tags.End();
        flow.Top += height + 5;
    }

    private static void Draw(PageFlow flow, SessionReport report)
    {
        var height = TrialPicture.HeightOf(report);
        flow.Ensure(height * PictureScale);
        flow.Tags.BeginElement(
            PdfIllustrationElementTag.Figure, TrialPicture.Description(report), new XRect(PageFlow.Left, flow.Top, flow.Width, height * PictureScale));
        var state = flow.Graphics.Save();
        flow.Graphics.TranslateTransform(PageFlow.Left, flow.Top);
        flow.Graphics.ScaleTransform(PictureScale);
        var width = flow.Width / PictureScale;
        IPlotModel model = TrialPicture.Of(report, width);
        model.Update(true);
        model.Render(new PlotCanvas(flow.Graphics), new OxyRect(0, 0, width, height));
        flow.Graphics.Restore(state);
        flow.Tags.End();
        flow.Top += (height * PictureScale) + 2;
        flow.Write(TrialPicture.Key(report), Typeface.Small, PdfBlockLevelElementTag.Paragraph, 6);
    }
}
