using System.Buffers;
using System.Runtime.CompilerServices;

namespace HandFhirBridge.Service.Intake;

/// <summary>Lines of a stream of any length, one at a time: memory holds one line, and never more of it than allowed.</summary>
internal static class LineReader
{
    private const int BufferSize = 64 * 1024;

    /// <summary>Lines, ended by LF or CRLF; a byte order mark in front of the first is dropped.</summary>
    public static async IAsyncEnumerable<TextLine> ReadAsync(Stream stream, int longest, [EnumeratorCancellation] CancellationToken cancel)
    {
        var buffer = new byte[BufferSize];
        var line = new ArrayBufferWriter<byte>();
        var (number, tooLong) = (1L, false);
        for (int read; (read = await stream.ReadAsync(buffer, cancel)) > 0;)
        {
            for (var from = 0; from < read;)
            {
                var end = buffer.AsSpan(from, read - from).IndexOf((byte)'\n');
                var part = buffer.AsMemory(from, end < 0 ? read - from : end);
                tooLong |= line.WrittenCount + part.Length > longest + 1;
                if (!tooLong)
                {
                    line.Write(part.Span);
                }

                from += part.Length + 1;
                if (end >= 0)
                {
                    yield return Complete(line, number++, tooLong);
                    line.ResetWrittenCount();
                    tooLong = false;
                }
            }
        }

        if (line.WrittenCount > 0 || tooLong)
        {
            yield return Complete(line, number, tooLong);
        }
    }

    private static TextLine Complete(ArrayBufferWriter<byte> line, long number, bool tooLong)
    {
        var bytes = line.WrittenSpan;
        bytes = number == 1 && bytes.StartsWith("\uFEFF"u8) ? bytes[3..] : bytes;
        return tooLong ? new(number, default, true) : new(number, (bytes.EndsWith("\r"u8) ? bytes[..^1] : bytes).ToArray(), false);
    }
}
