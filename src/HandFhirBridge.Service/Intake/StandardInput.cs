using System.Text.Json;
using HandFhirBridge.Assessment.Intake;

namespace HandFhirBridge.Service.Intake;

/// <summary>Tells what comes in on standard input, which has no name to tell it by.</summary>
internal static class StandardInput
{
    public const string Name = "stdin";

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>JSON if it begins with a brace and its first line is no whole document; NDJSON if the first line is one; a table otherwise. The stream given back begins at the beginning.</summary>
    public static async Task<(IntakeFormat Format, Stream Stream)> RecognizeAsync(Stream stdin, CancellationToken cancel)
    {
        var head = new byte[SessionReader.MaxDocumentBytes + 1];
        var length = 0;
        for (int read; length < head.Length && head.AsSpan(0, length).IndexOf((byte)'\n') < 0
            && (read = await stdin.ReadAsync(head.AsMemory(length), cancel)) > 0;)
        {
            length += read;
        }

        return (FormatOf(head.AsSpan(0, length)), new ReplayStream(head.AsMemory(0, length), stdin));
    }

    private static IntakeFormat FormatOf(ReadOnlySpan<byte> head)
    {
        var text = (head.StartsWith(ByteOrderMark) ? head[ByteOrderMark.Length..] : head).TrimStart(" \t\r\n"u8);
        if (text.IsEmpty || text[0] is not ((byte)'{' or (byte)'['))
        {
            return text.IsEmpty ? IntakeFormat.Json : IntakeFormat.Csv;
        }

        var end = text.IndexOf((byte)'\n');
        return IsDocument(end < 0 ? text : text[..end]) ? IntakeFormat.Ndjson : IntakeFormat.Json;
    }

    private static bool IsDocument(ReadOnlySpan<byte> line)
    {
        var reader = new Utf8JsonReader(line);
        try
        {
            return reader.Read() && reader.TrySkip();
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
