using System.Text;

namespace HandFhirBridge.Record.Search;

/// <summary>Backslash escapes in search values (R4 search.html#escaping).</summary>
internal static class Escaping
{
    /// <summary>Splits at separators that are not escaped; the parts stay escaped.</summary>
    public static IReadOnlyList<string> Split(string value, char separator)
    {
        var parts = new List<string>();
        var part = new StringBuilder();
        for (var i = 0; i < value.Length; i++)
        {
            if (value[i] == '\\' && i + 1 < value.Length)
            {
                part.Append(value[i++]).Append(value[i]);
            }
            else if (value[i] == separator)
            {
                parts.Add(part.ToString());
                part.Clear();
            }
            else
            {
                part.Append(value[i]);
            }
        }

        parts.Add(part.ToString());
        return parts;
    }

    /// <summary>The value with an escape before every separator, so that it is one value.</summary>
    public static string Escape(string plain) => string.Concat(plain.Select(c => c is '\\' or ',' or '$' or '|' ? $"\\{c}" : c.ToString()));

    /// <summary>The value without its escapes.</summary>
    public static string Unescape(string value)
    {
        var plain = new StringBuilder(value.Length);
        for (var i = 0; i < value.Length; i++)
        {
            plain.Append(value[i] == '\\' && i + 1 < value.Length ? value[++i] : value[i]);
        }

        return plain.ToString();
    }
}
