using System.Collections.Immutable;
using System.Text.Unicode;
using CsvHelper;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>
/// Reads a norm table as one person typed it: CSV (RFC 4180; comma, semicolon or tab; UTF-8), one row a cell, the columns in any order.
/// </summary>
public static class NormEntryReader
{
    // A row holds ten short fields; a longer one is no norm table.
    private const int LongestRow = 64 * 1024;

    /// <summary>Columns every table has. A cell of <c>n</c> may be empty; one of <c>mean</c> and <c>sd</c> only if both are.</summary>
    public static ImmutableArray<string> RequiredColumns { get; } = ["task", "hand", "sex", "age_min", "age_max", "n", "mean", "sd"];

    /// <summary>Columns a table may have: the range of times where the source prints it. It serves to check the typing and is not scored.</summary>
    public static ImmutableArray<string> OptionalColumns { get; } = ["min", "max"];

    /// <summary>The entry, checked as far as one entry can be, or every problem with row and column.</summary>
    /// <param name="utf8">The table. Stays open.</param>
    /// <param name="source">Name of the table in problems, for example its file name.</param>
    /// <param name="head">Set id, title, citation and person; its rows are replaced by those read.</param>
    /// <param name="instrument">The instrument <paramref name="head"/> names.</param>
    public static Outcome<NormEntry> Read(Stream utf8, string source, NormEntry head, Instrument instrument)
    {
        ArgumentNullException.ThrowIfNull(utf8);
        ArgumentNullException.ThrowIfNull(head);
        ArgumentNullException.ThrowIfNull(instrument);
        CsvMalformedRecord? malformed = null;
        using var csv = CsvReader.Create(utf8, Options(m => malformed = m), leaveOpen: true);
        try
        {
            var table = new NormEntryTable(source, Fields(csv, csv.Read()), csv.Separator);
            while (!table.HasNoRows && csv.Read())
            {
                table.Add(Fields(csv, more: true), csv.RowNumber, malformed is not null, Utf8.IsValid(csv.RawRecord));
                malformed = null;
            }

            return table.Entry(head, instrument);
        }
        catch (CsvFormatException)
        {
            var tooLong = NormProblems.UnreadableRow.At("", $"A row is longer than {LongestRow} bytes; the table was not read further.");
            return new(null, [tooLong with { Place = new(source, csv.RowNumber + 1) }]);
        }
    }

    private static CsvReaderOptions Options(Action<CsvMalformedRecord> malformed) => new()
    {
        HasHeader = false,
        DetectSeparatorHint = true,
        // One missing quotation mark must not swallow the rest of the table.
        AllowLineBreaksInQuotes = false,
        MaxRecordSize = LongestRow,
        OnMalformedRecord = malformed,
    };

    private static ImmutableArray<string> Fields(CsvReader csv, bool more) =>
        more ? [.. Enumerable.Range(0, csv.FieldCount).Select(i => csv.GetString(i).Trim())] : [];
}
