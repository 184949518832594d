using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Intake;

/// <summary>The session document that rows of a table stand for, and the way back from its JSON paths to cells.</summary>
internal sealed partial class CsvDocument
{
    private readonly CsvRows _rows;
    private readonly ImmutableArray<string> _session;
    private readonly Dictionary<string, (long Row, string Column)> _cells = new(StringComparer.Ordinal);
    private readonly JsonObject _root = new() { ["schemaVersion"] = SessionSchema.Version };

    /// <param name="rows">Rows of one session.</param>
    /// <param name="session">The session's own cells, by column.</param>
    public CsvDocument(CsvRows rows, ImmutableArray<string> session)
    {
        (_rows, _session) = (rows, session);
        WriteFixed();
        WriteReplaced();
        WritePrecautions();
        WriteTrials();
        Utf8 = Encoding.UTF8.GetBytes(_root.ToJsonString());
    }

    public ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>Row and column of what stands, or should stand, at a JSON path.</summary>
    public (long Row, string? Column) CellOf(string path)
    {
        var trial = TrialPath().Match(path);
        var row = trial.Success ? _rows.Rows[int.Parse(trial.Groups["index"].Value, null)].Row : _rows.Rows[0].Row;
        for (string? at = path; at is not null and not "$"; at = JsonPath.Parent(at))
        {
            if (_cells.TryGetValue(at, out var cell))
            {
                return cell;
            }

            var name = trial.Success ? CsvColumns.TrialPrefix + at[Math.Min(at.Length, trial.Length)..].TrimStart('.') : JsonPath.Label(at);
            if (CsvColumns.Fixed.ContainsKey(name))
            {
                return (row, name);
            }
        }

        return (row, null);
    }

    private void WriteFixed()
    {
        for (var i = 0; i < _session.Length; i++)
        {
            var name = _rows.Header.Names[i];
            if (_session[i].Length > 0 && CsvColumns.Fixed.TryGetValue(name, out var kind) && !IsTrial(name))
            {
                Put(_root, JsonPath.Root, name.Split('.'), Value(kind, _session[i]), _rows.Rows[0].Row, name);
            }
        }
    }

    private void WriteReplaced()
    {
        var list = new JsonArray();
        foreach (var (name, text) in SessionCells().Where(c => c.Name.StartsWith(CsvColumns.ReplacedPrefix, StringComparison.Ordinal)))
        {
            _cells[JsonPath.Item("$.setup.itemsReplaced", list.Count)] = (_rows.Rows[0].Row, name);
            list.Add(new JsonObject { ["item"] = name[CsvColumns.ReplacedPrefix.Length..], ["replacedBy"] = text });
        }

        if (list.Count > 0)
        {
            Child(_root, "setup")["itemsReplaced"] = list;
        }
    }

    private void WritePrecautions()
    {
        var list = new JsonArray();
        foreach (var group in SessionCells().Select(c => (c.Name, c.Text, Part: CsvColumns.PrecautionPart(c.Name)))
            .Where(c => c.Part is not null).GroupBy(c => c.Part!.Value.Precaution))
        {
            var path = JsonPath.Item("$.precautions", list.Count);
            var precaution = new JsonObject { ["precaution"] = group.Key };
            _cells[path] = (_rows.Rows[0].Row, CsvColumns.PrecautionPrefix + group.Key);
            foreach (var (name, text, part) in group)
            {
                var property = part!.Value.Property;
                precaution[property] = Value(property is "rulesOut" or "hands" ? CsvCell.Words : CsvCell.Text, text);
                _cells[JsonPath.Property(path, property)] = (_rows.Rows[0].Row, name);
            }

            list.Add(precaution);
        }

        if (list.Count > 0)
        {
            _root["precautions"] = list;
        }
    }

    private void WriteTrials()
    {
        var list = new JsonArray();
        foreach (var row in _rows.Rows)
        {
            var (trial, path) = (new JsonObject(), JsonPath.Item("$.trials", list.Count));
            for (var i = 0; i < _rows.Header.Names.Length; i++)
            {
                var name = _rows.Header.Names[i];
                if (IsTrial(name) && row[i].Length > 0)
                {
                    Put(trial, path, [name[CsvColumns.TrialPrefix.Length..]], Value(CsvColumns.Fixed[name], row[i]), row.Row, name);
                }
            }

            list.Add(trial);
        }

        _root["trials"] = list;
    }

    private void Put(JsonObject parent, string path, ReadOnlySpan<string> steps, JsonNode? value, long row, string column)
    {
        path = JsonPath.Property(path, steps[0]);
        if (steps.Length > 1)
        {
            Put(Child(parent, steps[0]), path, steps[1..], value, row, column);
            return;
        }

        parent[steps[0]] = value;
        _cells[path] = (row, column);
    }

    private static JsonObject Child(JsonObject parent, string name)
    {
        if (parent[name] is not JsonObject child)
        {
            parent[name] = child = [];
        }

        return child;
    }

    private IEnumerable<(string Name, string Text)> SessionCells() =>
        _rows.Header.Names.Zip(_session).Where(c => c.Second.Length > 0 && !IsTrial(c.First));

    private JsonNode? Value(CsvCell kind, string text) => kind switch
    {
        CsvCell.Number => Number(text),
        CsvCell.Flag when text.Equals("true", StringComparison.OrdinalIgnoreCase) => true,
        CsvCell.Flag when text.Equals("false", StringComparison.OrdinalIgnoreCase) => false,
        CsvCell.Words => new JsonArray([.. text.Split('|').Select(w => (JsonNode?)w)]),
        _ => text,
    };

    // Digits go into the document as they stand; what is no JSON number goes in as text, and the reader says so.
    private JsonNode? Number(string text)
    {
        var point = _rows.Header.DecimalCommaAllowed && CommaNumber().IsMatch(text) ? text.Replace(',', '.') : text;
        return JsonNumber().IsMatch(point) ? JsonNode.Parse(point) : text;
    }

    private static bool IsTrial(string name) => name.StartsWith(CsvColumns.TrialPrefix, StringComparison.Ordinal);

    [GeneratedRegex(@"^\$\.trials\[(?<index>[0-9]+)\]")]
    private static partial Regex TrialPath();

    [GeneratedRegex(@"^-?[0-9]+,[0-9]+\z")]
    private static partial Regex CommaNumber();

    // The grammar of RFC 8259 section 6.
    [GeneratedRegex(@"^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?\z")]
    private static partial Regex JsonNumber();
}
