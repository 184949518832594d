using System.Text;

namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>A small table of good sessions to be spoilt in one place.</summary>
internal sealed class CsvTable
{
    private static readonly string[] Tasks =
        ["writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects"];

    private readonly List<string> _header;
    private readonly List<Dictionary<string, string>> _rows = [];

    /// <summary>One session for each id, 14 rows each: the first session's rows are 2 to 15.</summary>
    public CsvTable(params string[] sessionIds)
    {
        var session = new Dictionary<string, string>
        {
            ["site"] = "harbour-hand-clinic", ["sessionId"] = "", ["instrument.id"] = "seven-task", ["instrument.version"] = "1",
            ["patient.identifier.system"] = "urn:oid:1.2.3", ["patient.identifier.value"] = "007", ["patient.familyName"] = "Tarrowby", ["patient.birthDate"] = "1988-04-12",
            ["performer.identifier.system"] = "urn:oid:1.2.4", ["performer.identifier.value"] = "T1", ["performer.name"] = "Ines Calderwick", ["performer.role"] = "hand-therapist",
            ["startedAt"] = "2026-01-13T10:00:00+01:00", ["endedAt"] = "2026-01-13T10:20:00+01:00", ["dominance.handedness"] = "right", ["dominance.howKnown"] = "stated",
            ["sexForNorm"] = "female", ["setup.glasses"] = "worn", ["setup.templateBoard"] = "FALSE", ["setup.capSeconds"] = "120",
        };
        foreach (var id in sessionIds)
        {
            foreach (var (task, hand) in from t in Tasks from h in new[] { "left", "right" } select (t, h))
            {
                _rows.Add(new(session)
                {
                    ["sessionId"] = id, ["trial.task"] = task, ["trial.hand"] = hand, ["trial.outcome"] = "completed", ["trial.seconds"] = "4.20", ["trial.source"] = "manual",
                });
            }
        }

        _header = [.. _rows[0].Keys];
    }

    public string NewLine { get; init; } = "\n";

    public char Separator { get; init; } = ',';

    /// <summary>Sets a cell by its row as a spreadsheet counts.</summary>
    public CsvTable With(int row, string column, string text)
    {
        if (!_header.Contains(column))
        {
            _header.Add(column);
        }

        _rows[row - 2][column] = text;
        return this;
    }

    public byte[] Bytes => Encoding.UTF8.GetBytes(ToString());

    public override string ToString() => string.Concat(
        _rows.Select(r => string.Join(Separator, _header.Select(c => r.GetValueOrDefault(c, "")))).Prepend(string.Join(Separator, _header)).Select(l => l + NewLine));
}
