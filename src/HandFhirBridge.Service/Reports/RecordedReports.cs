using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Service.Pipeline;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;

namespace HandFhirBridge.Service.Reports;

/// <summary>Reports made from what the record holds, never from what this service remembers.</summary>
/// <param name="records">Read the records of the targets.</param>
/// <param name="sites">Say which target is whose.</param>
/// <param name="reader">Reads resources back into sessions.</param>
/// <param name="builder">Makes reports of scored sessions.</param>
public sealed class RecordedReports(RecordReaders records, SiteRegister sites, SessionResources reader, ReportBuilder builder)
{
    /// <summary>The report of a session with its change since the session before it in the same chart.</summary>
    /// <returns>The report, or why there is none: not in the record, the record cannot be read, or what it holds contradicts itself.</returns>
    public async Task<Outcome<SessionReport>> FindAsync(string site, string sessionId, CancellationToken cancellation)
    {
        var record = records.Of(sites.TargetOf(site));
        try
        {
            return await record.FindReportAsync(IdentifierSystems.Report, $"{site}/{sessionId}", cancellation) is { } report
                ? await BuildAsync(record, report, cancellation)
                : new(null, [ServiceProblems.NotInRecord.At("", $"The record holds no report of {site}/{sessionId} yet.")]);
        }
        catch (Exception failed) when (failed is RecordReadException or HttpRequestException)
        {
            return new(null, [ServiceProblems.TargetUnreadable.At("", $"The record cannot be read: {failed.Message}")]);
        }
    }

    /// <summary>The latest report in a chart, or null if the chart has none that can be read.</summary>
    /// <param name="record">Reads the record that has the chart.</param>
    /// <param name="patient"><c>Patient/id</c> in the record.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task<SessionReport?> LatestOfAsync(RecordReader record, string patient, CancellationToken cancellation)
    {
        var reports = await record.ReportsOfPatientAsync(patient, CodeSystems.Measure, MeasureCodes.Report, cancellation);
        foreach (var report in reports.Where(Standing).OrderByDescending(Start))
        {
            if (await ReadAsync(record, report, cancellation) is { Value: { } scored })
            {
                return builder.Build(scored);
            }
        }

        return null;
    }

    private async Task<Outcome<SessionReport>> BuildAsync(RecordReader record, DiagnosticReport report, CancellationToken cancellation)
    {
        var current = await ReadAsync(record, report, cancellation);
        if (current.Value is not { } scored)
        {
            return new(null, current.Problems);
        }

        var earlier = await EarlierAsync(record, report, scored, cancellation);
        return new(builder.Build(scored, earlier), current.Problems);
    }

    private async Task<ScoredSession?> EarlierAsync(RecordReader record, DiagnosticReport report, ScoredSession current, CancellationToken cancellation)
    {
        if (report.Subject?.Reference is not { } subject)
        {
            return null;
        }

        var patient = new ResourceIdentity(subject);
        var all = await record.ReportsOfPatientAsync($"Patient/{patient.Id}", CodeSystems.Measure, MeasureCodes.Report, cancellation);
        foreach (var candidate in all.Where(r => r.Id != report.Id && Standing(r)).OrderByDescending(Start))
        {
            if (await ReadAsync(record, candidate, cancellation) is { Value: { } earlier } && ChangeScorer.Comparable(earlier.Session, current.Session))
            {
                return earlier;
            }
        }

        return null;
    }

    private async Task<Outcome<ScoredSession>> ReadAsync(RecordReader record, DiagnosticReport report, CancellationToken cancellation) =>
        reader.Read(await record.ResourcesOfAsync(report, cancellation));

    private static bool Standing(DiagnosticReport report) => report.Status != DiagnosticReport.DiagnosticReportStatus.EnteredInError;

    private static DateTimeOffset Start(DiagnosticReport report) =>
        (report.Effective as Period)?.StartElement?.ToDateTimeOffset(TimeSpan.Zero) ?? DateTimeOffset.MinValue;
}
