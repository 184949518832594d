using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports.Contents;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;

namespace HandFhirBridge.Service.Reports;

/// <summary>Reports made from what the record holds, never from what this service remembers.</summary>
/// <param name="records">Read the records of the targets.</param>
/// <param name="sites">Say which target is whose.</param>
/// <param name="reader">Reads resources back into sessions.</param>
/// <param name="earlier">Finds the session to compare with.</param>
/// <param name="builder">Makes reports of scored sessions.</param>
public sealed class RecordedReports(RecordReaders records, SiteRegister sites, SessionResources reader, EarlierSessions earlier, ReportBuilder builder)
{
    /// <summary>The report of a session with its change since the session before it in the same chart.</summary>
    /// <returns>The report, or why there is none: not in the record, withdrawn, the record cannot be read, or what it holds contradicts itself.</returns>
    public Task<Outcome<SessionReport>> FindAsync(string site, string sessionId, CancellationToken cancellation) =>
        FindAsync<SessionReport>(site, sessionId, BuildAsync, cancellation);

    /// <summary>What a page of a session shows: its report, or that it was withdrawn.</summary>
    /// <returns>The contents, or why there are none, as for <see cref="FindAsync(string, string, CancellationToken)"/>.</returns>
    internal Task<Outcome<ReportContents>> FindContentsAsync(string site, string sessionId, CancellationToken cancellation) =>
        FindAsync<ReportContents>(site, sessionId, ContentsAsync, cancellation);

    /// <summary>What a page of one report shows: the session's results, or that it was withdrawn.</summary>
    /// <param name="record">Reads the server that has the report, as whoever asks.</param>
    /// <param name="report">A report of ours.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="RecordReadException">The server does not let the caller read, or cannot be understood.</exception>
    internal async Task<Outcome<ReportContents>> ContentsAsync(RecordReader record, DiagnosticReport report, CancellationToken cancellation)
    {
        if (report.Identifier.FirstOrDefault(i => i.System == IdentifierSystems.Report)?.Value?.Split('/') is not [var site, var sessionId])
        {
            return new(null, [ServiceProblems.NotInRecord.At("", "This report is not of a session of this test.")]);
        }

        if (!EarlierSessions.IsStanding(report))
        {
            return new(ReportWriting.Of(WithdrawalNotice.Of(report, site, sessionId)), []);
        }

        var built = await BuildAsync(record, report, cancellation);
        return new(built.Value is { } found ? ReportWriting.Of(found) : null, built.Problems);
    }

    private async Task<Outcome<T>> FindAsync<T>(
        string site, string sessionId, Func<RecordReader, DiagnosticReport, CancellationToken, Task<Outcome<T>>> make, CancellationToken cancellation)
        where T : class
    {
        var record = records.Of(sites.TargetOf(site));
        try
        {
            return await record.FindReportAsync(IdentifierSystems.Report, $"{site}/{sessionId}", cancellation) is { } report
                ? await make(record, report, cancellation)
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
        foreach (var report in reports.Where(EarlierSessions.IsStanding).OrderByDescending(EarlierSessions.StartOf))
        {
            if (await ReadAsync(record, report, cancellation) is { Value: { } scored })
            {
                return builder.Build(report, scored, EarlierFinding.NotLookedFor);
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

        var before = await EarlierAsync(record, report, scored, cancellation);
        return new(builder.Build(report, scored, before), current.Problems);
    }

    private async Task<EarlierFinding> EarlierAsync(RecordReader record, DiagnosticReport report, ScoredSession current, CancellationToken cancellation) =>
        report.Subject?.Reference is { } subject
            ? await earlier.LastBeforeAsync(record, $"Patient/{new ResourceIdentity(subject).Id}", current.Session, cancellation)
            : EarlierFinding.None;

    private async Task<Outcome<ScoredSession>> ReadAsync(RecordReader record, DiagnosticReport report, CancellationToken cancellation) =>
        reader.Read(await record.ResourcesOfAsync(report, cancellation));
}
