using System.Globalization;
using System.Text;

namespace HandFhirBridge.Record.Search;

/// <summary>Text as string search compares it (R4 search.html#string): without case, accents and surplus space.</summary>
internal static class PlainText
{
    public static string Of(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var c in text.Normalize(NormalizationForm.FormD).Where(c => CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark))
        {
            plain.Append(char.IsWhiteSpace(c) ? ' ' : char.ToLowerInvariant(c));
        }

        return string.Join(' ', plain.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }
}
