using System.Security.Cryptography;
using System.Text;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>Gathers consecutive rows of one session.</summary>
internal sealed class CsvGrouping(CsvHeader header, int mostRows)
{
    private readonly int _site = header.Find(CsvColumns.Site);
    private readonly int _id = header.Find(CsvColumns.SessionId);
    private readonly HashSet<UInt128> _seen = [];
    private readonly List<CsvTrialRow> _rows = [];
    private (string Site, string Id)? _key;

    /// <summary>True if no row came at all.</summary>
    public bool IsUntouched { get; private set; } = true;

    /// <summary>Adds a row; gives the session before it when the row begins another.</summary>
    public (CsvRows Rows, bool SeenBefore)? Add(CsvTrialRow row)
    {
        IsUntouched = false;
        var key = (row[_site], row[_id]);
        // A row that does not say whose it is, or whose cells are not where they should be, stays with the rows above: the session is refused with it.
        var belongs = _rows.Count > 0 && (!row.Faults.IsEmpty || key.Item1.Length == 0 || key.Item2.Length == 0 || _key is null || key == _key);
        var complete = belongs && _rows.Count < mostRows ? null : Rest(belongs);
        _key ??= row.Faults.IsEmpty && key.Item1.Length > 0 && key.Item2.Length > 0 ? key : null;
        _rows.Add(row);
        return complete;
    }

    /// <summary>The rows gathered, or null if there are none.</summary>
    public (CsvRows Rows, bool SeenBefore)? Rest(bool cut = false)
    {
        if (_rows.Count == 0)
        {
            return null;
        }

        var seenBefore = _key is { } key && !_seen.Add(Fingerprint(key));
        if (cut)
        {
            _rows[^1] = _rows[^1] with { Faults = _rows[^1].Faults.Add(TooManyRows(_rows[^1])) };
        }

        (CsvRows, bool) group = (new CsvRows(header, [.. _rows]), seenBefore);
        _rows.Clear();
        _key = null;
        return group;
    }

    private Problem TooManyRows(CsvTrialRow row) =>
        IntakeProblems.DocumentTooLarge.At("$.trials", $"The session has more than {mostRows} rows.", null, "Check sessionId: rows of several sessions carry the same one.")
            with { Place = new SourcePlace(header.Source, row.Row, CsvColumns.SessionId) };

    private static UInt128 Fingerprint((string Site, string Id) key) =>
        System.Buffers.Binary.BinaryPrimitives.ReadUInt128LittleEndian(SHA256.HashData(Encoding.UTF8.GetBytes($"{key.Site}/{key.Id}")));
}
