using HandFhirBridge.Service.Reports.Contents;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>A table on paper; its headings are repeated on each page.</summary>
/// <param name="flow">Pages.</param>
/// <param name="table">What it shows.</param>
internal sealed class PrintedTable(PageFlow flow, Table table)
{
    private const double Gap = 3;
    private static readonly XSolidBrush Shade = new(XColor.FromArgb(0xee, 0xf1, 0xf4));
    private static readonly XPen Rule = new(XColor.FromArgb(0x55, 0x5f, 0x6b), 0.6);
    private readonly double[] widths = [.. table.Columns.Select(c => c.Share / table.Columns.Sum(other => other.Share) * flow.Width)];

    public void Write()
    {
        // Heading, caption and a few rows stay together.
        flow.Ensure(70);
        flow.Write(table.Caption, Typeface.Strong, PdfBlockLevelElementTag.Paragraph, 2);
        flow.Tags.BeginElement(PdfBlockLevelElementTag.Table);
        WriteHead();
        foreach (var row in table.Rows)
        {
            var lines = LinesOf(row.Cells, row.Marked);
            if (flow.Ensure(HeightOf(lines)))
            {
                WriteHead();
            }

            WriteRow(lines, row.Marked, head: false);
        }

        flow.Tags.End();
        flow.Top += 8;
    }

    private void WriteHead()
    {
        WriteRow(LinesOf([.. table.Columns.Select(c => c.Heading)], bold: true), bold: true, head: true);
        flow.Decorate(g => g.DrawLine(Rule, PageFlow.Left, flow.Top, PageFlow.Left + flow.Width, flow.Top));
    }

    private void WriteRow(List<List<string>> lines, bool bold, bool head)
    {
        var height = HeightOf(lines);
        if (bold && !head)
        {
            flow.Decorate(g => g.DrawRectangle(Shade, PageFlow.Left, flow.Top, flow.Width, height));
        }

        flow.Tags.BeginElement(PdfBlockLevelElementTag.TableRow);
        var left = PageFlow.Left;
        for (var cell = 0; cell < lines.Count; cell++)
        {
            flow.Tags.BeginElement(head || cell == 0 ? PdfBlockLevelElementTag.TableHeaderCell : PdfBlockLevelElementTag.TableDataCell);
            flow.WriteLines(lines[cell], FontOf(bold), XBrushes.Black, left + Gap, flow.Top + 1.5, widths[cell] - (2 * Gap), table.Columns[cell].Number);
            flow.Tags.End();
            left += widths[cell];
        }

        flow.Tags.End();
        flow.Top += height;
    }

    private List<List<string>> LinesOf(IReadOnlyList<string> cells, bool bold) =>
        [.. cells.Select((text, cell) => Lines.Of(flow.Graphics, text, FontOf(bold), widths[cell] - (2 * Gap)))];

    private static double HeightOf(List<List<string>> lines) => (lines.Max(l => l.Count) * Typeface.LineOf(Typeface.Body)) + 2;

    private static XFont FontOf(bool bold) => bold ? Typeface.Strong : Typeface.Body;
}
