using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>From bytes to JSON: everything that can be wrong before the first field is looked at (RFC 8259).</summary>
internal static class DocumentText
{
    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The parsed document, or the one problem that prevents it. A leading byte order mark is ignored, as RFC 8259 section 8.1 allows.</summary>
    public static (JsonDocument? Document, Problem? Problem) Parse(ReadOnlyMemory<byte> bytes)
    {
        if (bytes.Length > SessionReader.MaxDocumentBytes)
        {
            return (null, IntakeProblems.DocumentTooLarge.At("", string.Create(CultureInfo.InvariantCulture,
                $"The document has {bytes.Length:N0} bytes; the limit is {SessionReader.MaxDocumentBytes:N0}.")));
        }

        bytes = bytes.Span.StartsWith(ByteOrderMark) ? bytes[ByteOrderMark.Length..] : bytes;
        return Fault(bytes.Span) is { } problem ? (null, problem) : (JsonDocument.Parse(bytes), null);
    }

    private static Problem? Fault(ReadOnlySpan<byte> bytes)
    {
        if (!Utf8.IsValid(bytes))
        {
            return NotUtf8(bytes);
        }

        if (bytes.Trim(" \t\r\n"u8).IsEmpty)
        {
            return IntakeProblems.DocumentEmpty.At("", "The document is empty.");
        }

        var reader = new Utf8JsonReader(bytes, isFinalBlock: false, new JsonReaderState());
        try
        {
            while (reader.Read())
            {
                // Half a surrogate pair written as an escape is the one thing a string can hold that is no text (RFC 8259 section 8.2).
                if (reader.ValueIsEscaped && !IsText(in reader))
                {
                    return NotJson(bytes, (int)reader.TokenStartIndex, "an escape stands for half a character");
                }
            }
        }
        catch (JsonException e)
        {
            return NotJson(bytes, OffsetOf(bytes, e), Reason(e));
        }

        return Complete(bytes) ? null : Truncated(bytes);
    }

    private static bool IsText(in Utf8JsonReader reader)
    {
        try
        {
            return reader.GetString() is not null;
        }
        catch (InvalidOperationException)
        {
            return false; // The only way the framework tells that the escapes do not make up text.
        }
    }

    // A number at the very end is only complete once the reader knows that nothing follows.
    private static bool Complete(ReadOnlySpan<byte> bytes)
    {
        var reader = new Utf8JsonReader(bytes);
        try
        {
            while (reader.Read())
            {
            }

            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static Problem Truncated(ReadOnlySpan<byte> bytes)
    {
        var (line, column) = Position(bytes, bytes.Length);
        return IntakeProblems.DocumentTruncated.At("", $"The document ends too early, at line {line}, column {column}.");
    }

    private static Problem NotUtf8(ReadOnlySpan<byte> bytes)
    {
        var valid = 0;
        while (Rune.DecodeFromUtf8(bytes[valid..], out _, out var length) == System.Buffers.OperationStatus.Done)
        {
            valid += length;
        }

        var (line, column) = Position(bytes, valid);
        return IntakeProblems.NotUtf8.At("", $"The text is not UTF-8 at line {line}, column {column}.", $"byte 0x{bytes[valid]:X2}");
    }

    private static Problem NotJson(ReadOnlySpan<byte> bytes, int offset, string reason)
    {
        var (line, column) = Position(bytes, offset);
        var rest = Encoding.UTF8.GetString(bytes[offset..Math.Min(bytes.Length, offset + 64)]);
        var found = new string([.. rest.TakeWhile(c => !char.IsControl(c) && c != '\uFFFD').Take(20)]);
        return IntakeProblems.NotJson.At("", $"The text is not JSON at line {line}, column {column}: {reason}.", found.Length == 0 ? null : found);
    }

    // The framework appends its own position, which counts from zero and in bytes, and may quote the rest of the document.
    private static string Reason(JsonException e)
    {
        var text = e.Message.Split(" LineNumber:", 2)[0].TrimEnd('.', ' ');
        return text switch
        {
            _ when text.Contains("invalid JSON literal", StringComparison.Ordinal) => "a value is neither text in quotation marks, number, true, false nor null",
            ['\'', ..] => text,
            _ => char.ToLowerInvariant(text[0]) + text[1..],
        };
    }

    private static int OffsetOf(ReadOnlySpan<byte> bytes, JsonException e)
    {
        var offset = 0;
        for (var line = e.LineNumber ?? 0; line > 0 && bytes[offset..].IndexOf((byte)'\n') is var next and >= 0; line--)
        {
            offset += next + 1;
        }

        return (int)Math.Min(bytes.Length, offset + (e.BytePositionInLine ?? 0));
    }

    /// <summary>Line and column of a byte, both from 1, columns in characters as an editor counts them.</summary>
    private static (int Line, int Column) Position(ReadOnlySpan<byte> bytes, int offset)
    {
        var before = bytes[..offset];
        var start = before.LastIndexOf((byte)'\n') + 1;
        return (before.Count((byte)'\n') + 1, Encoding.UTF8.GetCharCount(before[start..]) + 1);
    }
}
