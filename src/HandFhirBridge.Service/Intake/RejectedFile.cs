using System.Text;
using CsvHelper;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>Refused sessions of one source, in its own form. The file is created with the first of them.</summary>
internal sealed class RejectedFile(string path, Action created) : IAsyncDisposable
{
    private FileStream? _stream;
    private CsvWriter? _csv;
    private CsvHeader? _header;

    public async Task WriteAsync(IntakeItem item, CancellationToken cancel)
    {
        if (_stream is null)
        {
            _stream = new FileStream(path, FileMode.CreateNew);
            created();
        }

        if (item.Rows is { } rows)
        {
            await WriteRowsAsync(rows, item.Outcome.Problems, cancel);
            return;
        }

        await _stream.WriteAsync(item.Document, cancel);
        if (item.Format == IntakeFormat.Ndjson)
        {
            await _stream.WriteAsync("\n"u8.ToArray(), cancel);
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_csv is not null)
        {
            await _csv.DisposeAsync();
        }

        if (_stream is not null)
        {
            await _stream.DisposeAsync();
        }
    }

    private async Task WriteRowsAsync(CsvRows rows, IReadOnlyCollection<Problem> problems, CancellationToken cancel)
    {
        if (_csv is null)
        {
            _header = rows.Header;
            _csv = CsvWriter.Create(_stream!, new CsvWriterOptions { HasHeader = false, ValidateFieldCount = false, Separator = _header.Separator }, leaveOpen: true);
            await _csv.WriteRecordAsync(Line(_header.Names, CsvColumns.Problem), cancel);
        }

        foreach (var row in rows.Rows)
        {
            var own = string.Join(' ', problems.Where(p => p.Place?.Line == row.Row)
                .Select(p => $"{p.Code} {(p.Place!.Column is { } c ? c + ": " : "")}{p.Message} {p.Remedy}"));
            if (row.Raw is not null)
            {
                await WriteRawAsync(row.Raw, own, cancel);
            }
            else
            {
                await _csv.WriteRecordAsync(Line(row.Fields, own), cancel);
            }
        }
    }

    // With quotation marks out of place nobody knows where the fields end: the row is written as it stood.
    private async Task WriteRawAsync(string raw, string problem, CancellationToken cancel)
    {
        await _csv!.FlushAsync(cancel);
        var told = _header!.Find(CsvColumns.Problem) >= 0 ? "" : $"{_header.Separator}\"{problem.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
        await _stream!.WriteAsync(Encoding.UTF8.GetBytes($"{raw}{told}\r\n"), cancel);
    }

    // A table that was refused once before has the column already: it is written anew. A row with too few or too many fields
    // keeps what it has: filled up, it would be read with values under the wrong names.
    private string[] Line(IReadOnlyList<string> fields, string problem) =>
        [.. fields.Where((_, i) => i >= _header!.Names.Length || _header.Names[i] != CsvColumns.Problem), problem];
}
