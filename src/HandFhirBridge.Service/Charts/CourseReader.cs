using System.Collections.Immutable;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Charts;

/// <summary>Reads a patient's course from a FHIR server, as it stands there.</summary>
/// <param name="reader">Reads resources back into sessions.</param>
/// <param name="builder">Makes the course.</param>
public sealed class CourseReader(SessionResources reader, CourseBuilder builder)
{
    // Trials and totals are of fine hand use, handedness is asked: one of the two holds for every result of a session.
    private static readonly (string, string)[] Categories = [(CodeSystems.Icf, "d440"), (CodeSystems.ObservationCategory, "survey")];

    /// <summary>The course; a session that cannot be shown is named with the reason and hides no other.</summary>
    /// <param name="record">Reads the server.</param>
    /// <param name="patientId">Id of the Patient there.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="RecordReadException">The server does not let the caller read, or cannot be understood.</exception>
    public async Task<Course> ReadAsync(RecordReader record, string patientId, CancellationToken cancellation)
    {
        var held = await new PatientSessions(record).ReadAsync(patientId, CodeSystems.Measure, MeasureCodes.Report, Categories, cancellation);
        var standing = held.Where(s => s.Report.Status != DiagnosticReport.DiagnosticReportStatus.EnteredInError).ToList();
        var read = standing.AsParallel().AsOrdered().WithCancellation(cancellation).Select(Read).ToList();
        var shown = read.Select(r => r.Session).OfType<RecordedSession>().ToLookup(s => s.Scored.Session.Key);
        var twice = shown.Where(same => same.Count() > 1).SelectMany(same => same)
            .Select(s => new SessionNotShown(s.ReportId, $"The chart holds {s.Scored.Session.Key} more than once; which one counts is for a person to decide."));
        return builder.Build(
            shown.Where(same => same.Count() == 1).SelectMany(same => same),
            [.. read.Select(r => r.Not).OfType<SessionNotShown>(), .. twice],
            held.Count - standing.Count);
    }

    private (RecordedSession? Session, SessionNotShown? Not) Read(PatientSession held)
    {
        var outcome = reader.Read(held.Resources);
        return outcome.Value is { } scored
            ? (new(scored, held.Report.Id!, held.Resources.OfType<Observation>().SelectMany(Identified).DistinctBy(o => o.Key).ToImmutableDictionary()), null)
            : (null, new(held.Report.Id!, string.Join(' ', outcome.Problems.Select(p => p.Message).Distinct().Take(3))));
    }

    private static IEnumerable<KeyValuePair<string, string>> Identified(Observation observation) => observation.Identifier
        .Where(i => i.System is IdentifierSystems.Trial or IdentifierSystems.Total && i.Value is not null)
        .Select(i => KeyValuePair.Create(i.Value!, observation.Id!));
}
