using System.Globalization;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Service.Cli;

/// <summary>Writes rows to a terminal or pipe.</summary>
internal static class RowPrinter
{
    // A person reads no more; programs take another format.
    private const int MostRows = 1000;

    /// <summary>Writes them.</summary>
    /// <returns>Rows written.</returns>
    public static async Task<long> WriteAsync(RowFormat format, IReadOnlyList<string> columns, IEnumerable<object?[]> rows, TextWriter output)
    {
        if (format == RowFormat.Table)
        {
            return await TableAsync(columns, rows, output);
        }

        var count = format == RowFormat.Csv ? RowText.WriteCsv(columns, rows, output) : RowText.WriteNdjson(columns, rows, output);
        await output.FlushAsync();
        return count;
    }

    private static async Task<long> TableAsync(IReadOnlyList<string> columns, IEnumerable<object?[]> rows, TextWriter output)
    {
        var lines = rows.Take(MostRows + 1).Select(row => row.Select(Text).ToArray()).ToList();
        var more = lines.Count > MostRows;
        var widths = columns.Select((c, i) => lines.Take(MostRows).Select(l => l[i].Length).Append(c.Length).Max()).ToList();
        await output.WriteLineAsync(Line(columns, widths));
        await output.WriteLineAsync(Line(widths.Select(w => new string('-', w)), widths));
        foreach (var line in lines.Take(MostRows))
        {
            await output.WriteLineAsync(Line(line, widths));
        }

        if (more)
        {
            await output.WriteLineAsync($"More rows than {MostRows} are shown with --format csv or ndjson.");
        }

        return Math.Min(lines.Count, MostRows);
    }

    private static string Line(IEnumerable<string> cells, List<int> widths) => string.Join("  ", cells.Select((c, i) => c.PadRight(widths[i]))).TrimEnd();

    private static string Text(object? cell) => cell switch
    {
        null => "",
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        object?[] several => string.Join(", ", several.Select(Text)),
        _ => Convert.ToString(cell, CultureInfo.InvariantCulture)!,
    };
}
