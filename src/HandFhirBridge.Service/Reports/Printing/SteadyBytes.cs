using System.Buffers.Text;
using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>
/// Finishes what the PDF library wrote without compression: takes out what it leaves to chance (document ids, names of font subsets), and
/// compresses the streams, since the library would do so within its turn and without the checksum that ends them (RFC 1950 asks for
/// one; readers cope, checkers warn). Objects move, so the table of their places is written anew (ISO 32000-1, 7.5.4).
/// </summary>
internal static class SteadyBytes
{
    private const int EntryLength = 20;
    private const int TagLength = 6;
    private const int IdLength = 32;

    /// <summary>The same document.</summary>
    /// <param name="document">As the library wrote it: one table of places, no object streams, nothing compressed. Its bytes are changed.</param>
    /// <exception cref="InvalidDataException">It is not written that way.</exception>
    public static byte[] Of(byte[] document)
    {
        NameSubsets(document);
        var table = Number(document, After(document, "startxref\n"u8, document.AsSpan().LastIndexOf("startxref\n"u8)));
        var size = After(document, "xref\n0 "u8, table);
        var count = Number(document, size);
        var entries = document.AsSpan(size..).IndexOf((byte)'\n') + size + 1;
        var places = Enumerable.Range(0, count).Select(number => (Number: number, Entry: entries + (number * EntryLength)))
            .Where(place => document[place.Entry + EntryLength - 3] == (byte)'n')
            .Select(place => (place.Entry, At: Number(document, place.Entry))).OrderBy(place => place.At).ToArray();
        using var target = new MemoryStream(document.Length);
        target.Write(document.AsSpan(..places[0].At));
        for (var index = 0; index < places.Length; index++)
        {
            var (entry, at) = places[index];
            var moved = target.Length;
            var end = index + 1 < places.Length ? places[index + 1].At : table;
            Write(document.AsSpan(at..end), target);
            // The object's old place is read: its entry can take the new one.
            moved.TryFormat(document.AsSpan(entry, 10), out _, "D10", CultureInfo.InvariantCulture);
        }

        var tableAt = target.Length;
        target.Write(document.AsSpan(table..document.AsSpan().LastIndexOf("startxref\n"u8)));
        target.Write(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"startxref\n{tableAt}\n%%EOF\n")));
        var finished = target.ToArray();
        Identify(finished);
        return finished;
    }

    // A font subset is called by six letters, a plus sign and the font's name (ISO 32000-1, 9.6.4).
    private static void NameSubsets(Span<byte> document)
    {
        var tags = new List<string>();
        for (var rest = document; rest.IndexOf("+DejaVu"u8) is var plus and >= TagLength; rest = rest[(plus + 1)..])
        {
            var tag = rest[(plus - TagLength)..plus];
            if (tag.ContainsAnyExceptInRange((byte)'A', (byte)'Z'))
            {
                continue;
            }

            var name = Encoding.ASCII.GetString(tag);
            if (!tags.Contains(name))
            {
                tags.Add(name);
            }

            "SUBSE"u8.CopyTo(tag);
            tag[^1] = (byte)('A' + tags.IndexOf(name));
        }
    }

    private static void Write(ReadOnlySpan<byte> piece, MemoryStream target)
    {
        var mark = ">>\nstream\n"u8;
        var dictionary = piece.IndexOf(mark);
        // Metadata stays legible to programs that know no PDF (ISO 32000-1, 14.3.2).
        if (dictionary < 0 || piece[..dictionary].IndexOf("/Type/Metadata"u8) >= 0)
        {
            target.Write(piece);
            return;
        }

        var length = piece[..dictionary].IndexOf("/Length "u8);
        var number = After(piece, "/Length "u8, length);
        var rest = number + piece[number..].IndexOfAnyExceptInRange((byte)'0', (byte)'9');
        var data = piece.Slice(dictionary + mark.Length, Number(piece, number));
        using var compressed = new MemoryStream(data.Length);
        using (var deflate = new ZLibStream(compressed, CompressionLevel.Optimal, leaveOpen: true))
        {
            deflate.Write(data);
        }

        target.Write(piece[..length]);
        target.Write(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"/Filter/FlateDecode/Length {compressed.Length}")));
        target.Write(piece[rest..(dictionary + mark.Length)]);
        compressed.WriteTo(target);
        target.Write(piece[(dictionary + mark.Length + data.Length)..]);
    }

    // The id follows from the content, which at that moment has none.
    private static void Identify(Span<byte> document)
    {
        var ids = document[After(document, "/ID[<"u8, document.LastIndexOf("/ID[<"u8))..];
        Span<byte> first = ids[..IdLength], second = ids.Slice(IdLength + "><".Length, IdLength);
        first.Fill((byte)'0');
        second.Fill((byte)'0');
        Uuid(document, Guid.Empty);
        var hash = SHA256.HashData(document).AsSpan(..16);
        Encoding.ASCII.GetBytes(Convert.ToHexString(hash), first);
        first.CopyTo(second);
        Uuid(document, new Guid(hash));
    }

    // By their elements of the metadata: a patient's identifier may be a UUID as well, and stands in the document's subject.
    private static void Uuid(Span<byte> document, Guid id)
    {
        Write("<xmpMM:DocumentID>uuid:"u8, document);
        Write("<xmpMM:InstanceID>uuid:"u8, document);

        void Write(ReadOnlySpan<byte> mark, Span<byte> document) => id.TryFormat(document[After(document, mark, document.LastIndexOf(mark))..], out _);
    }

    /// <summary>Where what follows <paramref name="mark"/> begins.</summary>
    private static int After(ReadOnlySpan<byte> document, ReadOnlySpan<byte> mark, int at) =>
        at >= 0 && document[at..].StartsWith(mark) ? at + mark.Length : throw NotAsExpected(Encoding.ASCII.GetString(mark));

    private static int Number(ReadOnlySpan<byte> document, int at) =>
        Utf8Parser.TryParse(document[at..], out int number, out _) ? number : throw NotAsExpected("number");

    private static InvalidDataException NotAsExpected(string missing) => new($"The PDF library wrote no \"{missing.Trim()}\" where one is expected.");
}
