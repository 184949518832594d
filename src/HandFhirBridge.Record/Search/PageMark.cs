using System.Buffers.Text;
using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Record.Http;

namespace HandFhirBridge.Record.Search;

/// <summary>
/// The last match of a page: its sort values and its number. The next page begins behind it, so that nothing is given twice or left out
/// because something else was written meanwhile.
/// </summary>
/// <param name="Keys">Sort values, in order.</param>
/// <param name="Rid">Number of the resource.</param>
internal sealed record PageMark(IReadOnlyList<object> Keys, long Rid)
{
    /// <summary>Sorts after every text and number (SQLite: BLOB comes last); stands for "no value" in an ascending sort.</summary>
    public static readonly byte[] Last = [0xFF];

    public static PageMark Parse(string text, int keys)
    {
        try
        {
            var parts = JsonSerializer.Deserialize<string[]>(Base64Url.DecodeFromChars(text))!;
            return parts.Length == keys + 1
                ? new([.. parts[..^1].Select(Read)], long.Parse(parts[^1], CultureInfo.InvariantCulture))
                : throw new FormatException();
        }
        catch (Exception broken) when (broken is FormatException or JsonException or ArgumentException or OverflowException)
        {
            throw RecordRefusal.BadRequest("_after is not one of this server's. Follow the next link as it is given.");
        }
    }

    public override string ToString() => Base64Url.EncodeToString(JsonSerializer.SerializeToUtf8Bytes(
        Keys.Select(Write).Append(Rid.ToString(CultureInfo.InvariantCulture)).ToArray()));

    private static string Write(object key) => key switch
    {
        long whole => "i" + whole.ToString(CultureInfo.InvariantCulture),
        double real => "r" + real.ToString("R", CultureInfo.InvariantCulture),
        string text => "t" + text,
        _ => "b",
    };

    private static object Read(string key) => key switch
    {
        ['i', .. var whole] => long.Parse(whole, CultureInfo.InvariantCulture),
        ['r', .. var real] => double.Parse(real, CultureInfo.InvariantCulture),
        ['t', .. var text] => text,
        _ => Last,
    };
}
