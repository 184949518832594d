using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Intake;

/// <summary>One session handed in, good or not; or something that should have held sessions and could not be read.</summary>
/// <param name="Place">File, and line or first row.</param>
/// <param name="Format">Form it had.</param>
/// <param name="Document">The document as handed in (JSON, NDJSON) or as built from the rows (CSV); empty if there is none to show: file not readable, header unusable, larger than the limit.</param>
/// <param name="Outcome">The session, or why it is refused. Every problem has a place.</param>
/// <param name="Rows">For CSV the rows it came from, else null.</param>
public sealed record IntakeItem(
    SourcePlace Place, IntakeFormat Format, ReadOnlyMemory<byte> Document, Outcome<Session> Outcome, CsvRows? Rows = null)
{
    internal static IntakeItem Refused(SourcePlace place, IntakeFormat format, params ReadOnlySpan<Problem> problems) =>
        new(place, format, default, new(null, [.. problems.ToArray().Select(p => p.Place is null ? p with { Place = place } : p)]));
}
