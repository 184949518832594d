using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Text.Unicode;
using CsvHelper;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>Tables with one row a trial (RFC 4180; comma, semicolon or tab). Holds one session's rows at a time, and 16 bytes for each session seen.</summary>
internal sealed class CsvSource(SessionReader reader)
{
    // A session has 14 trials and some repeats. More rows than this are no session, and are not kept in memory.
    private const int MostRows = 500;
    private readonly CsvSessions _sessions = new(reader);

    public async IAsyncEnumerable<IntakeItem> ReadAsync(string source, Stream stream, [EnumeratorCancellation] CancellationToken cancel)
    {
        CsvMalformedRecord? malformed = null;
        await using var csv = CsvReader.Create(stream, Options(m => malformed = m), leaveOpen: true);
        var header = await ReadHeaderAsync(csv, source, cancel);
        if (header.Faults() is { IsEmpty: false } faults)
        {
            yield return IntakeItem.Refused(new SourcePlace(source, 1), IntakeFormat.Csv, faults.AsSpan());
            yield break;
        }

        var group = new CsvGrouping(header, MostRows);
        Problem? tooLong = null;
        while (tooLong is null)
        {
            malformed = null;
            (var more, tooLong) = await NextAsync(csv, source, cancel);
            if (!more)
            {
                break;
            }

            if (csv.FieldCount == 1 && csv.RawRecord.IsEmpty)
            {
                continue;
            }

            if (group.Add(Row(csv, header, malformed)) is { } complete)
            {
                yield return _sessions.Read(complete.Rows, complete.SeenBefore);
            }
        }

        if (group.Rest() is { } last)
        {
            yield return _sessions.Read(last.Rows, last.SeenBefore);
        }

        if (tooLong is not null)
        {
            yield return IntakeItem.Refused(tooLong.Place!, IntakeFormat.Csv, tooLong);
        }
        else if (group.IsUntouched)
        {
            yield return IntakeItem.Refused(new SourcePlace(source), IntakeFormat.Csv,
                IntakeProblems.FolderWithoutSessions.At("", "The table has a header and no rows."));
        }
    }

    private static CsvReaderOptions Options(Action<CsvMalformedRecord> malformed) => new()
    {
        HasHeader = false,
        DetectSeparatorHint = true,
        SkipEmptyLines = false,
        // One missing quotation mark must not swallow the rest of the table.
        AllowLineBreaksInQuotes = false,
        MaxRecordSize = SessionReader.MaxDocumentBytes,
        OnMalformedRecord = malformed,
    };

    private static async Task<CsvHeader> ReadHeaderAsync(CsvReader csv, string source, CancellationToken cancel)
    {
        var (more, _) = await NextAsync(csv, source, cancel);
        return more ? new CsvHeader(source, Fields(csv), csv.Separator) : new CsvHeader(source, [], ',');
    }

    private static async Task<(bool More, Problem? TooLong)> NextAsync(CsvReader csv, string source, CancellationToken cancel)
    {
        var row = csv.RowNumber + 1;
        try
        {
            return (await csv.ReadAsync(cancel), null);
        }
        catch (CsvFormatException)
        {
            return (false, IntakeProblems.DocumentTooLarge.At("", "The row is longer than 1 MiB; the table was not read further.")
                with { Place = new SourcePlace(source, row) });
        }
    }

    private static CsvTrialRow Row(CsvReader csv, CsvHeader header, CsvMalformedRecord? malformed)
    {
        var place = new SourcePlace(header.Source, csv.RowNumber);
        var faults = new List<Problem>();
        if (malformed is { } quote)
        {
            faults.Add(IntakeProblems.BadQuote.At("", Sentence(quote.Reason), quote.RawRecord));
        }
        else if (csv.FieldCount != header.Names.Length)
        {
            faults.Add(IntakeProblems.FieldCount.At("", $"The row has {csv.FieldCount} fields; the header has {header.Names.Length}."));
        }

        if (!Utf8.IsValid(csv.RawRecord))
        {
            faults.Add(IntakeProblems.NotUtf8.At("", "The row is not UTF-8."));
        }

        return new CsvTrialRow(csv.RowNumber, Fields(csv), [.. faults.Select(f => f with { Place = place })], malformed?.RawRecord);
    }

    private static string Sentence(CsvMalformedReason reason) => reason switch
    {
        CsvMalformedReason.LineBreakInQuotes or CsvMalformedReason.UnterminatedQuote => "A quotation mark is opened in this row and not closed in it.",
        CsvMalformedReason.TextAfterClosingQuote => "Text follows a closing quotation mark.",
        _ => "A quotation mark stands within a field.",
    };

    private static ImmutableArray<string> Fields(CsvReader csv) => [.. Enumerable.Range(0, csv.FieldCount).Select(csv.GetString)];
}
