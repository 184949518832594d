using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>A typed table while it is read: its header, the rows so far, and what is wrong with them.</summary>
internal sealed class NormEntryTable
{
    private readonly string _source;
    private readonly char _separator;
    private readonly ImmutableArray<string> _columns;
    private readonly List<Problem> _problems = [];
    private readonly List<(NormRow Row, long Line)> _rows = [];

    public NormEntryTable(string source, ImmutableArray<string> columns, char separator)
    {
        (_source, _columns, _separator) = (source, columns, separator);
        _problems.AddRange(HeaderFaults());
        HasNoRows = _problems.Count > 0;
    }

    /// <summary>True if the header is such that no row can be read.</summary>
    public bool HasNoRows { get; }

    public void Add(ImmutableArray<string> fields, long line, bool malformed, bool utf8)
    {
        if (malformed || !utf8 || fields.Length != _columns.Length)
        {
            var what = malformed ? "has a quotation mark out of place"
                : !utf8 ? "is not UTF-8"
                : $"has {fields.Length} fields; the header has {_columns.Length}";
            _problems.Add(NormProblems.UnreadableRow.At("", $"The row {what}.") with { Place = new(_source, line) });
            return;
        }

        var row = new NormEntryFields(_columns.Zip(fields).ToDictionary(p => p.First, p => p.Second), new(_source, line), _separator, _problems);
        if (row.Read() is { } read)
        {
            _rows.Add((read, line));
        }
    }

    /// <summary>The entry, or all problems: of the typing in the order of the table, then of the arithmetic.</summary>
    public Outcome<NormEntry> Entry(NormEntry head, Instrument instrument)
    {
        var entry = head with { Rows = [.. _rows.Select(r => r.Row)] };
        // Where no row could be read, that the table is empty need not be said as well.
        if (_rows.Count > 0 || _problems.Count == 0)
        {
            _problems.AddRange(NormEntryCheck.Find(entry, instrument, Place));
        }

        return _problems.Count == 0 ? new(entry, []) : new(null, [.. _problems]);
    }

    private SourcePlace Place(int? row, string? column) => new(_source, row is { } r ? _rows[r].Line : null, column);

    private IEnumerable<Problem> HeaderFaults()
    {
        var known = NormEntryReader.RequiredColumns.AddRange(NormEntryReader.OptionalColumns);
        foreach (var name in _columns.Distinct().Where(name => !known.Contains(name)))
        {
            var near = NearestName.Of(name, known.Except(_columns));
            yield return At(
                NormProblems.UnknownColumn, name, $"The table has a column \"{name}\", which is not a column of a norm table.",
                near is null ? null : $"Did you mean \"{near}\"?");
        }

        foreach (var name in _columns.Where(known.Contains).GroupBy(c => c).Where(g => g.Count() > 1).Select(g => g.Key))
        {
            yield return At(NormProblems.UnknownColumn, name, $"The table has the column \"{name}\" twice.", "Keep the right one.");
        }

        foreach (var name in NormEntryReader.RequiredColumns.Where(c => !_columns.Contains(c)))
        {
            yield return At(NormProblems.MissingColumn, name, $"The table has no column \"{name}\".", null);
        }
    }

    private Problem At(ProblemKind kind, string column, string message, string? remedy) =>
        kind.At(column, message, null, remedy) with { Place = new(_source, 1, column) };
}
