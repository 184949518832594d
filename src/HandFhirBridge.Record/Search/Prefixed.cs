namespace HandFhirBridge.Record.Search;

/// <summary>A search value with its comparison prefix (R4 search.html#prefix).</summary>
/// <param name="Prefix">eq where none is written.</param>
/// <param name="Value">The rest.</param>
internal readonly record struct Prefixed(string Prefix, string Value)
{
    private static readonly string[] Known = ["eq", "ne", "gt", "lt", "ge", "le", "sa", "eb", "ap"];

    public static Prefixed Parse(string text) =>
        text.Length > 2 && Known.Contains(text[..2]) ? new(text[..2], text[2..]) : new("eq", text);
}
