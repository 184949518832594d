using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>
/// Puts right two things in the PDF library's output: it leaves chance in it (document ids, names of font subsets), and it ends
/// compressed streams without their checksum (RFC 1950 asks for one; readers cope, checkers warn). Objects move, so the table
/// of their places is written anew (ISO 32000-1, 7.5.4).
/// </summary>
internal static partial class SteadyBytes
{
    private const int EntryLength = 20;

    /// <summary>The same document.</summary>
    /// <param name="document">As the library wrote it: one table of places, no object streams.</param>
    public static byte[] Of(byte[] document)
    {
        // Latin-1 keeps every byte as one character.
        var text = Encoding.Latin1.GetString(document);
        var begin = int.Parse(StartOfTable().Match(text).Groups[1].Value, CultureInfo.InvariantCulture);
        var head = TableHead().Match(text, begin);
        var entries = Enumerable.Range(0, int.Parse(head.Groups[1].Value, CultureInfo.InvariantCulture))
            .Select(n => text.Substring(head.Index + head.Length + (n * EntryLength), EntryLength)).ToArray();
        var places = entries.Select((entry, number) => (Number: number, At: int.Parse(entry[..10], CultureInfo.InvariantCulture), InUse: entry[17] == 'n'))
            .Where(p => p.InUse).OrderBy(p => p.At).ToArray();
        var tags = new Dictionary<string, string>(StringComparer.Ordinal);
        var written = new StringBuilder(text[..places[0].At]);
        for (var index = 0; index < places.Length; index++)
        {
            var (number, at, _) = places[index];
            var end = index + 1 < places.Length ? places[index + 1].At : begin;
            entries[number] = string.Create(CultureInfo.InvariantCulture, $"{written.Length:0000000000}") + entries[number][10..];
            written.Append(Steady(WithChecksum(text[at..end]), tags));
        }

        var table = written.Length;
        var trailer = text[(head.Index + head.Length + (entries.Length * EntryLength))..text.LastIndexOf("startxref", StringComparison.Ordinal)];
        written.Append(head.Value).AppendJoin("", entries).Append(trailer).Append(CultureInfo.InvariantCulture, $"startxref\n{table}\n%%EOF\n");
        return Encoding.Latin1.GetBytes(Identified(written.ToString()));
    }

    private static string Steady(string piece, Dictionary<string, string> tags) => SubsetTag().Replace(piece, found =>
    {
        if (!tags.TryGetValue(found.Value, out var tag))
        {
            tags[found.Value] = tag = "SUBSE" + (char)('A' + tags.Count);
        }

        return tag;
    });

    // The id follows from the content, which at that moment has none.
    private static string Identified(string text)
    {
        var without = Uuid().Replace(Ids().Replace(text, found => $"/ID[<{new string('0', 32)}><{new string('0', 32)}>]"), "uuid:" + Guid.Empty);
        var hash = SHA256.HashData(Encoding.Latin1.GetBytes(without))[..16];
        var hex = Convert.ToHexString(hash);
        return Uuid().Replace(Ids().Replace(without, $"/ID[<{hex}><{hex}>]"), $"uuid:{new Guid(hash)}");
    }

    private static string WithChecksum(string piece)
    {
        if (Stream().Match(piece) is not { Success: true } stream || !stream.Value.Contains("/Filter/FlateDecode", StringComparison.Ordinal))
        {
            return piece;
        }

        var begin = stream.Index + stream.Length;
        var length = stream.Groups["length"];
        var end = begin + int.Parse(length.Value, CultureInfo.InvariantCulture);
        var data = Encoding.Latin1.GetBytes(piece[begin..end]);
        var checksum = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(checksum, Adler32(Inflate(data)));
        return data.AsSpan().EndsWith(checksum)
            ? piece
            : string.Concat(
                piece[..length.Index],
                (data.Length + checksum.Length).ToString(CultureInfo.InvariantCulture),
                piece[(length.Index + length.Length)..end],
                Encoding.Latin1.GetString(checksum) + piece[end..]);
    }

    private static byte[] Inflate(byte[] data)
    {
        // Two bytes of header, then the deflated data.
        using var source = new DeflateStream(new MemoryStream(data, 2, data.Length - 2), CompressionMode.Decompress);
        using var target = new MemoryStream();
        source.CopyTo(target);
        return target.ToArray();
    }

    // RFC 1950, 8.2. The remainder is taken once: 64 bits hold the sums of some hundred megabytes.
    private static uint Adler32(byte[] data)
    {
        ulong one = 1, two = 0;
        foreach (var value in data)
        {
            one += value;
            two += one;
        }

        return (uint)(((two % 65521) << 16) | (one % 65521));
    }

    [GeneratedRegex(@"startxref\s+(\d+)\s+%%EOF\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex StartOfTable();

    [GeneratedRegex(@"\Gxref\s+0 (\d+)\s*?\n", RegexOptions.CultureInvariant)]
    private static partial Regex TableHead();

    [GeneratedRegex(@"[A-Z]{6}(?=\+DejaVu)", RegexOptions.CultureInvariant)]
    private static partial Regex SubsetTag();

    [GeneratedRegex(@"/ID\s*\[<[0-9A-F]{32}><[0-9A-F]{32}>\]", RegexOptions.CultureInvariant)]
    private static partial Regex Ids();

    [GeneratedRegex("uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", RegexOptions.CultureInvariant)]
    private static partial Regex Uuid();

    // The dictionary of a stream holds no other here.
    [GeneratedRegex(@"<<[^<>]*/Length (?<length>\d+)[^<>]*>>\s*?\nstream\r?\n", RegexOptions.CultureInvariant)]
    private static partial Regex Stream();
}
