using PdfSharp.Drawing;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Breaks text into lines.</summary>
internal static class Lines
{
    /// <summary>The lines of a text within a width; a word that is longer than the width is broken.</summary>
    public static List<string> Of(XGraphics graphics, string text, XFont font, double width)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in Clean(text).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Pieces(graphics, word, font, width)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && graphics.MeasureString(longer, font).Width > width)
            {
                lines.Add(line);
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        return line.Length == 0 && lines.Count > 0 ? lines : [.. lines, line];
    }

    private static IEnumerable<string> Pieces(XGraphics graphics, string word, XFont font, double width)
    {
        while (word.Length > 1 && graphics.MeasureString(word, font).Width > width)
        {
            var fits = 1;
            while (fits < word.Length - 1 && graphics.MeasureString(word[..(fits + 1)], font).Width <= width)
            {
                fits++;
            }

            // Both halves of a character beyond the basic plane stay together.
            fits = char.IsHighSurrogate(word[fits - 1]) && fits > 1 ? fits - 1 : fits;
            yield return word[..fits];
            word = word[fits..];
        }

        yield return word;
    }

    private static string Clean(string text) => new([.. text.Select(c => char.IsControl(c) ? ' ' : c)]);
}
