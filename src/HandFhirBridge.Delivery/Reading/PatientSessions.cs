using System.Net;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>
/// Every session in one patient's chart with few requests: three searches by patient, and what they did not bring one by one.
/// A server that pages, ignores a parameter, or does not know one gives the same sessions.
/// </summary>
/// <param name="record">Reads the server.</param>
public sealed class PatientSessions(RecordReader record)
{
    // R4 names no largest page; a server brings it down to its own.
    private const int PageSize = 1000;

    /// <summary>Each report with all that belongs to its session, in no order.</summary>
    /// <param name="patientId">Id of the Patient on the server.</param>
    /// <param name="codeSystem">System of the report's code.</param>
    /// <param name="code">The report's code.</param>
    /// <param name="categories">Categories of the results; those of none of them are read one by one.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="RecordReadException">The server does not let the caller read, or cannot be understood.</exception>
    public async Task<IReadOnlyList<PatientSession>> ReadAsync(
        string patientId, string codeSystem, string code, IEnumerable<(string System, string Code)> categories, CancellationToken cancellation)
    {
        var subject = $"patient={Uri.EscapeDataString(patientId)}";
        var reports = SearchAsync<DiagnosticReport>(
            $"{subject}&code={Targets.FhirSearch.Token(codeSystem, code)}", r => r.Subject, patientId, cancellation);
        var observations = SearchAsync<Observation>(
            $"{subject}&category={string.Join(',', categories.Select(c => Targets.FhirSearch.Token(c.System, c.Code)))}", o => o.Subject, patientId, cancellation);
        var responses = SearchAsync<QuestionnaireResponse>(subject, r => r.Subject, patientId, cancellation);
        await System.Threading.Tasks.Task.WhenAll(reports, observations, responses);
        var members = new ReportMembers(record, await observations, await responses);
        var sessions = new List<PatientSession>();
        foreach (var report in (await reports).Where(r => r.Code.Coding.Any(c => c.System == codeSystem && c.Code == code)))
        {
            sessions.Add(new(report, report.Status == DiagnosticReport.DiagnosticReportStatus.EnteredInError
                ? [report]
                : await members.OfAsync(report, cancellation)));
        }

        return sessions;
    }

    private async Task<List<T>> SearchAsync<T>(string query, Func<T, ResourceReference?> subject, string patientId, CancellationToken cancellation)
        where T : Resource
    {
        var found = new Dictionary<string, T>(StringComparer.Ordinal);
        try
        {
            await foreach (var match in record.SearchAsync<T>(query, cancellation, PageSize))
            {
                if (RecordReader.IsOf(subject(match), patientId))
                {
                    found.TryAdd(RecordReader.Key(match), match);
                }
            }
        }
        catch (RecordReadException refused) when (refused.Status == HttpStatusCode.BadRequest && typeof(T) != typeof(DiagnosticReport))
        {
            // It does not know a parameter of this search; what the reports name is read one by one.
            found.Clear();
        }

        return [.. found.Values];
    }
}
