using System.Text;
using System.Xml;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// The form of a narrative: its tags with their attributes as they are written, and between them whether there is text.
/// Whether XML is well formed and fits a schema of mixed content depends on no letter of plain text.
/// </summary>
internal static class MarkupShape
{
    private const int Longest = 500_000;
    private const char Words = '\u0001';
    private const char Space = '\u0002';

    private static readonly string[] Entities = ["&amp;", "&lt;", "&gt;", "&quot;", "&apos;"];

    /// <summary>The form; null for anything but tags and plain text (comments, declarations, other entities, stray signs).</summary>
    internal static string? Of(string markup)
    {
        if (markup.Length > Longest)
        {
            return null;
        }

        var shape = new StringBuilder(256);
        var at = 0;
        while (at < markup.Length)
        {
            var end = markup[at] == '<' ? EndOfTag(markup, at) : EndOfText(markup, at);
            if (end < 0)
            {
                return null;
            }

            if (markup[at] == '<')
            {
                shape.Append(markup, at, end - at);
            }
            else
            {
                shape.Append(markup.AsSpan(at, end - at).Trim(" \n").IsEmpty ? Space : Words);
            }

            at = end;
        }

        return shape.ToString();
    }

    // Tags are kept word for word, so that what is wrong in one is part of the form; only its end must be found for sure.
    private static int EndOfTag(string markup, int start)
    {
        char? quote = null;
        for (var at = start + 1; at < markup.Length; at++)
        {
            var sign = markup[at];
            if (at == start + 1 && sign is '!' or '?')
            {
                return -1;
            }

            if (quote is null && sign == '>')
            {
                return at + 1;
            }

            if (sign == '<' || sign is Words or Space)
            {
                return -1;
            }

            quote = quote is null ? (sign is '"' or '\'' ? sign : null) : sign == quote ? null : quote;
        }

        return -1;
    }

    private static int EndOfText(string markup, int start)
    {
        var at = start;
        while (at < markup.Length && markup[at] != '<')
        {
            var length = LengthOfSign(markup, at);
            if (length == 0)
            {
                return -1;
            }

            at += length;
        }

        return at;
    }

    private static int LengthOfSign(string markup, int at) => markup[at] switch
    {
        '>' or '\r' => 0,
        '&' => Array.Find(Entities, entity => string.CompareOrdinal(markup, at, entity, 0, entity.Length) == 0)?.Length ?? 0,
        var sign when XmlConvert.IsXmlChar(sign) => 1,
        var sign when char.IsHighSurrogate(sign) && at + 1 < markup.Length && XmlConvert.IsXmlSurrogatePair(markup[at + 1], sign) => 2,
        _ => 0,
    };
}
