using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Service.Pipeline;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Reports;

/// <summary>Finds the session before another one in the same chart.</summary>
/// <param name="records">Read the records of the targets.</param>
/// <param name="sites">Say which target is whose.</param>
/// <param name="reader">Reads resources back into sessions.</param>
/// <param name="clock">Measures patience.</param>
public sealed class EarlierSessions(RecordReaders records, SiteRegister sites, SessionResources reader, TimeProvider clock)
{
    /// <summary>Longest a session waits at the door for it; accepting a session matters more than comparing it.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    /// <summary>The last comparable session before one that is not in the record yet.</summary>
    /// <param name="session">The session handed in.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The session, or why there is none. It never fails: what is wrong with a record must keep no session out of the ledger.</returns>
    public async Task<EarlierFinding> FindAsync(Session session, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(session);
        using var limit = new CancellationTokenSource(Patience, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancellation);
        try
        {
            var record = records.Of(sites.TargetOf(session.Site));
            var (system, value) = session.Patient.Identifier;
            return await record.FindPatientsAsync(system, value, either.Token) switch
            {
                [] => EarlierFinding.None,
                [{ Id: { } id } chart] when IsOf(chart, session.Patient) => await LastBeforeAsync(record, $"Patient/{id}", session, either.Token),
                _ => EarlierFinding.NotReadable,
            };
        }
        catch (Exception) when (!cancellation.IsCancellationRequested)
        {
            // Too slow, not there, or not understood: the report says that nobody could look.
            return EarlierFinding.NotReadable;
        }
    }

    /// <summary>The last comparable session before another one in a chart.</summary>
    /// <param name="record">Reads the record that has the chart.</param>
    /// <param name="patient"><c>Patient/id</c> in the record.</param>
    /// <param name="current">The session to compare.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="RecordReadException">The record cannot be read.</exception>
    public async Task<EarlierFinding> LastBeforeAsync(RecordReader record, string patient, Session current, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(current);
        var own = SessionKeys.Of(current).Session;
        var all = await record.ReportsOfPatientAsync(patient, CodeSystems.Measure, MeasureCodes.Report, cancellation);
        foreach (var candidate in all.Where(r => IsStanding(r) && !IsOf(r, own) && StartOf(r) < current.StartedAt).OrderByDescending(StartOf))
        {
            if (reader.Read(await record.ResourcesOfAsync(candidate, cancellation)).Value is { } earlier && ChangeScorer.Comparable(earlier.Session, current))
            {
                return EarlierFinding.Of(earlier);
            }
        }

        return EarlierFinding.None;
    }

    /// <summary>True unless it was withdrawn.</summary>
    internal static bool IsStanding(DiagnosticReport report) => report.Status != DiagnosticReport.DiagnosticReportStatus.EnteredInError;

    /// <summary>When its session began.</summary>
    internal static DateTimeOffset StartOf(DiagnosticReport report) =>
        (report.Effective as Period)?.StartElement?.ToDateTimeOffset(TimeSpan.Zero) ?? DateTimeOffset.MinValue;

    // What another person did must never be printed as what this one did before: a chart that delivery would doubt is not looked into.
    private static bool IsOf(Patient chart, PatientIdentity patient) =>
        chart.BirthDate == patient.BirthDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        && chart.Name.Exists(name => FamilyName.Agrees(name.Family, patient.FamilyName));

    private static bool IsOf(DiagnosticReport report, string session) =>
        report.Identifier.Any(i => i.System == IdentifierSystems.Report && i.Value == session);
}
