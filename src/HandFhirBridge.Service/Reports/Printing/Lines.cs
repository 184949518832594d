using System.Text;
using PdfSharp.Drawing;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Breaks text into lines.</summary>
internal static class Lines
{
    /// <summary>The lines of a text within a width; a word that is longer than the width is broken.</summary>
    public static List<string> Of(XGraphics graphics, string text, XFont font, double width)
    {
        var lines = new List<string>();
        var (line, used, space) = (new StringBuilder(), 0.0, graphics.MeasureString(" ", font).Width);
        foreach (var (word, its) in Clean(text).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Pieces(graphics, word, font, width)))
        {
            // A line is as wide as its words: the library does not kern.
            if (line.Length > 0 && used + space + its > width)
            {
                lines.Add(line.ToString());
                line.Clear();
            }

            used = line.Length == 0 ? its : used + space + its;
            line.Append(line.Length == 0 ? "" : " ").Append(word);
        }

        return [.. lines, line.ToString()];
    }

    private static IEnumerable<(string Text, double Width)> Pieces(XGraphics graphics, string word, XFont font, double width)
    {
        double its;
        while ((its = graphics.MeasureString(word, font).Width) > width && word.Length > 1)
        {
            var fits = 1;
            while (fits < word.Length - 1 && graphics.MeasureString(word[..(fits + 1)], font).Width <= width)
            {
                fits++;
            }

            // Both halves of a character beyond the basic plane stay together.
            fits = char.IsHighSurrogate(word[fits - 1]) && fits > 1 ? fits - 1 : fits;
            yield return (word[..fits], graphics.MeasureString(word[..fits], font).Width);
            word = word[fits..];
        }

        yield return (word, its);
    }

    private static string Clean(string text) => new([.. text.Select(c => char.IsControl(c) ? ' ' : c)]);
}
