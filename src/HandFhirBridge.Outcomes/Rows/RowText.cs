using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using CsvHelper;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Rows as text: CSV (RFC 4180, with a header) or NDJSON. Decimals keep the digits they were written with.</summary>
public static class RowText
{
    // A spreadsheet takes text that begins with certain signs for a formula; numbers are not text.
    private static readonly CsvWriterOptions Form = new() { HasHeader = false, Injection = CsvInjection.Escape };
    private static readonly JsonWriterOptions Relaxed = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes CSV; several values of one cell are joined by <c>|</c>, an empty cell is no value.</summary>
    /// <param name="columns">Names of the columns.</param>
    /// <param name="rows">Cells in their order.</param>
    /// <param name="destination">Left open.</param>
    /// <returns>Rows written.</returns>
    public static long WriteCsv(IEnumerable<string> columns, IEnumerable<object?[]> rows, TextWriter destination)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(destination);
        using var csv = CsvWriter.Create(destination, Form, leaveOpen: true);
        WriteRecord(csv, columns);
        var count = 0L;
        foreach (var row in rows)
        {
            WriteRecord(csv, row.Select(cell => cell is decimal or int or long or double ? cell : Text(cell)));
            count++;
        }

        return count;
    }

    /// <summary>Writes NDJSON: an object a row; cells without a value are null.</summary>
    /// <param name="columns">Names of the columns.</param>
    /// <param name="rows">Cells in their order.</param>
    /// <param name="destination">Left open.</param>
    /// <returns>Rows written.</returns>
    public static long WriteNdjson(IReadOnlyList<string> columns, IEnumerable<object?[]> rows, TextWriter destination)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(destination);
        var count = 0L;
        var line = new ArrayBufferWriter<byte>();
        using var json = new Utf8JsonWriter(line, Relaxed);
        foreach (var row in rows)
        {
            json.WriteStartObject();
            for (var i = 0; i < columns.Count; i++)
            {
                json.WritePropertyName(columns[i]);
                WriteValue(json, row[i]);
            }

            json.WriteEndObject();
            json.Flush();
            destination.Write(Encoding.UTF8.GetString(line.WrittenSpan));
            destination.Write('\n');
            line.ResetWrittenCount();
            json.Reset();
            count++;
        }

        return count;
    }

    private static void WriteRecord(CsvWriter csv, IEnumerable<object?> fields)
    {
        foreach (var field in fields)
        {
            csv.WriteField(field);
        }

        csv.EndRecord();
    }

    private static void WriteValue(Utf8JsonWriter json, object? cell)
    {
        if (cell is object?[] several)
        {
            json.WriteStartArray();
            foreach (var one in several)
            {
                WriteValue(json, one);
            }

            json.WriteEndArray();
        }
        else
        {
            JsonSerializer.Serialize(json, cell);
        }
    }

    private static string Text(object? cell) => cell switch
    {
        null => "",
        bool flag => flag ? "true" : "false",
        object?[] several => string.Join('|', several.Select(Text)),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        DateTime moment => moment.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture),
        _ => Convert.ToString(cell, CultureInfo.InvariantCulture)!,
    };
}
