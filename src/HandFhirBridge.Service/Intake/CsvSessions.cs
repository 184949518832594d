using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Intake;

/// <summary>Rows of one session to a session.</summary>
internal sealed class CsvSessions(SessionReader reader)
{
    public IntakeItem Read(CsvRows rows, bool seenBefore)
    {
        var place = new SourcePlace(rows.Header.Source, rows.Rows[0].Row);
        var faults = Faults(rows, seenBefore);
        if (faults.Length > 0)
        {
            // What the rows hold would be misread: only their form is reported.
            return new(place, IntakeFormat.Csv, default, new(null, faults), rows);
        }

        var (session, contradictions) = SessionCells(rows);
        var document = new CsvDocument(rows, session);
        var outcome = reader.Read(document.Utf8);
        ImmutableArray<Problem> problems =
        [
            .. contradictions.Concat(outcome.Problems.Select(p => Located(p, document, rows.Header))).OrderBy(p => p.Place!.Line),
        ];
        return new(place, IntakeFormat.Csv, document.Utf8, new(contradictions.Count > 0 ? null : outcome.Value, problems), rows);
    }

    private static ImmutableArray<Problem> Faults(CsvRows rows, bool seenBefore)
    {
        var header = rows.Header;
        var (site, id) = (header.Find(CsvColumns.Site), header.Find(CsvColumns.SessionId));
        var faults = rows.Rows.SelectMany(r => r.Faults).ToList();
        if (seenBefore && faults.Count == 0)
        {
            var row = rows.Rows[0];
            faults.Add(IntakeProblems.RowsNotTogether.At("$.sessionId", $"Rows of session {row[id]} of {row[site]} stand here and further up.", row[id])
                with { Place = new(header.Source, row.Row, CsvColumns.SessionId) });
        }

        faults.AddRange(rows.Rows.Where(r => r.Faults.IsEmpty && (r[site].Length == 0 || r[id].Length == 0)).Select(r =>
        {
            var column = r[site].Length == 0 ? CsvColumns.Site : CsvColumns.SessionId;
            return IntakeProblems.RowWithoutSession.At($"$.{column}", $"The row has no {column}.") with { Place = new(header.Source, r.Row, column) };
        }));
        return [.. faults.OrderBy(f => f.Place!.Line)];
    }

    // A session's own cells may be filled in once or repeated in every row; what is filled in must agree.
    private static (ImmutableArray<string> Session, List<Problem> Contradictions) SessionCells(CsvRows rows)
    {
        var session = ImmutableArray.CreateBuilder<string>();
        var contradictions = new List<Problem>();
        for (var i = 0; i < rows.Header.Names.Length; i++)
        {
            var name = rows.Header.Names[i];
            var column = i;
            var first = rows.Rows.FirstOrDefault(r => r[column].Length > 0);
            session.Add(first?[i] ?? "");
            if (name == CsvColumns.Problem || name.StartsWith(CsvColumns.TrialPrefix, StringComparison.Ordinal))
            {
                continue;
            }

            contradictions.AddRange(rows.Rows.Where(r => r[column].Length > 0 && r[column] != first![column]).Take(1).Select(r =>
                IntakeProblems.RowsContradict.At($"$.{name}", $"{name} is \"{r[column]}\" here and \"{first![column]}\" in row {first.Row}.", r[column])
                    with { Place = new(rows.Header.Source, r.Row, name) }));
        }

        return (session.ToImmutable(), contradictions);
    }

    private static Problem Located(Problem problem, CsvDocument document, CsvHeader header)
    {
        var (row, column) = document.CellOf(problem.Location);
        var remedy = problem.Kind == IntakeProblems.DecimalComma
            ? $"Write {problem.Found?.Replace(',', '.')} with a decimal point, or separate the columns by semicolon or tab."
            : problem.Remedy;
        return problem with { Place = new SourcePlace(header.Source, row, column), Remedy = remedy };
    }
}
