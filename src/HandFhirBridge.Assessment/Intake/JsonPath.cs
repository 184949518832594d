using System.Globalization;
using System.Text;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Paths into a JSON document, written as RFC 9535 writes them: names in dots where its shorthand allows, else in brackets.</summary>
public static class JsonPath
{
    /// <summary>The document itself.</summary>
    public const string Root = "$";

    /// <summary>Path of a property of the object at <paramref name="parent"/>.</summary>
    public static string Property(string parent, string name) =>
        IsShorthand(name) ? $"{parent}.{name}" : $"{parent}['{Quoted(name)}']";

    /// <summary>Path of an item (counted from 0) of the array at <paramref name="parent"/>.</summary>
    public static string Item(string parent, int index) => $"{parent}[{index.ToString(CultureInfo.InvariantCulture)}]";

    /// <summary>Path of what contains <paramref name="path"/>, or null for the root.</summary>
    public static string? Parent(string path)
    {
        if (path.EndsWith(']'))
        {
            var open = path.EndsWith("']", StringComparison.Ordinal) ? path.LastIndexOf("['", StringComparison.Ordinal) : path.LastIndexOf('[');
            return open > 0 ? path[..open] : null;
        }

        var dot = path.LastIndexOf('.');
        return dot > 0 ? path[..dot] : null;
    }

    /// <summary>The path as a person would name the field: without <c>$.</c>; <c>the document</c> for the root.</summary>
    public static string Label(string path) =>
        path == Root ? "the document" : path.StartsWith("$.", StringComparison.Ordinal) ? path[2..] : path;

    private static bool IsShorthand(string name) =>
        name.Length > 0 && !char.IsAsciiDigit(name[0]) && name.All(c => char.IsAsciiLetterOrDigit(c) || c == '_');

    private static string Quoted(string name)
    {
        var text = new StringBuilder(name.Length);
        foreach (var c in name)
        {
            _ = c switch
            {
                '\'' or '\\' => text.Append('\\').Append(c),
                _ when char.IsControl(c) => text.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}"),
                _ => text.Append(c),
            };
        }

        return text.ToString();
    }
}
