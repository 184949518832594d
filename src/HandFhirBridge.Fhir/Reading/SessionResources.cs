using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads the resources of a session back into the same scored session. Ids and addresses may be the server's own; what the resources say may not differ.</summary>
/// <param name="instruments">Definitions.</param>
/// <param name="clock">Says what is in the future.</param>
public sealed class SessionResources(InstrumentLibrary instruments, TimeProvider clock)
{
    /// <summary>The session, or every reason why it cannot be read. Nothing is guessed or left out.</summary>
    /// <param name="resources">One report with all that belongs to it, in any order: a bundle as it was sent, pages of a search, single resources. Resources of others are ignored.</param>
    public Outcome<ScoredSession> Read(IEnumerable<Resource> resources)
    {
        ArgumentNullException.ThrowIfNull(resources);
        var problems = new List<Problem>();
        var set = new ResourceSet(resources, problems);
        var session = FindReport(set, problems) is { } report && SessionKeysOf(report) is { } keys
            ? new SessionReading(set, report, keys, instruments, clock, problems).Read()
            : null;
        return new(problems.Count == 0 ? session : null, [.. problems]);
    }

    private static DiagnosticReport? FindReport(ResourceSet set, List<Problem> problems)
    {
        var reports = set.All.OfType<DiagnosticReport>().Where(r => SessionKeysOf(r) is not null).ToList();
        switch (reports)
        {
            case [var report]:
                return report;
            case []:
                problems.Add(ReadingProblems.NoReport.At("", "There is no report of a session among the resources given."));
                return null;
            default:
                var keys = string.Join(", ", reports.Select(r => $"{r.TypeName}/{r.Id} of {SessionKeysOf(r)!.Value.Session}"));
                problems.Add(ReadingProblems.SeveralReports.At("", $"There are {reports.Count} reports among the resources given: {keys}."));
                return null;
        }
    }

    private static SessionKeys? SessionKeysOf(DiagnosticReport report) => report.Identifier
        .Where(i => i.System == IdentifierSystems.Report)
        .Select(i => i.Value?.Split('/'))
        .Select(parts => parts is [{ Length: > 0 } site, { Length: > 0 } session] ? (SessionKeys?)new SessionKeys(site, session) : null)
        .FirstOrDefault();
}
