namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Lines of an NDJSON file as bytes: what reads JSON takes UTF-8, and a line as text would be converted twice.</summary>
internal static class NdjsonLines
{
    private const int Chunk = 1 << 20;

    /// <summary>Lines that are not empty, with their numbers from 1; none if there is no file.</summary>
    public static IEnumerable<(long Number, ReadOnlyMemory<byte> Json)> Read(string path)
    {
        if (!File.Exists(path))
        {
            yield break;
        }

        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
        var buffer = new byte[Chunk];
        var (length, number) = (0, 0L);
        int read;
        while ((read = file.Read(buffer, length, buffer.Length - length)) > 0)
        {
            length += read;
            var start = 0;
            while (buffer.AsSpan(start, length - start).IndexOf((byte)'\n') is var at and >= 0)
            {
                number++;
                if (Line(buffer, start, at) is { Length: > 0 } line)
                {
                    yield return (number, line);
                }

                start += at + 1;
            }

            // The lines given out keep their own copies, so the buffer is used again for what is left of it.
            length -= start;
            var next = length == buffer.Length ? new byte[buffer.Length * 2] : buffer;
            Buffer.BlockCopy(buffer, start, next, 0, length);
            buffer = next;
        }

        if (Line(buffer, 0, length) is { Length: > 0 } last)
        {
            yield return (number + 1, last);
        }
    }

    private static byte[] Line(byte[] buffer, int start, int length) => buffer.AsSpan(start, length).TrimEnd("\r "u8).ToArray();
}
