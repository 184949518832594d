using System.Net.Http.Headers;
using System.Runtime.CompilerServices;
using HandFhirBridge.Delivery.Targets;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Validation;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>
/// Reads what a FHIR R4 server holds of our sessions. Uses plain searches only, so that it works on servers without
/// includes, and checks what comes back, because some servers ignore a parameter they do not know.
/// </summary>
/// <param name="http">Client that signs in as the target asks.</param>
/// <param name="fhirBase">The server's FHIR base; ends with a slash.</param>
public sealed class RecordReader(HttpClient http, Uri fhirBase)
{
    internal const string SupportingInfo = "http://hl7.org/fhir/StructureDefinition/workflow-supportingInfo";
    // What can be read is taken as it stands, so checking it on the way would only take time (two thirds of it).
    private static readonly FhirJsonDeserializer Parser = new(
        new DeserializerSettings().UsingMode(DeserializationMode.Recoverable) with { Validator = null, NarrativeValidation = NarrativeValidationKind.None });


    /// <summary>The report that carries this identifier, or null if the server has none.</summary>
    /// <exception cref="RecordReadException">The server answered with an error, or more than one report carries the identifier.</exception>
    public async Task<DiagnosticReport?> FindReportAsync(string system, string value, CancellationToken cancellation)
    {
        var found = new List<DiagnosticReport>();
        await foreach (var report in SearchAsync<DiagnosticReport>($"identifier={FhirSearch.Token(system, value)}", cancellation))
        {
            if (report.Identifier.Any(i => i.System == system && i.Value == value))
            {
                found.Add(report);
            }
        }

        return found.Count <= 1
            ? found.SingleOrDefault()
            : throw new RecordReadException($"{found.Count} reports carry the identifier {system}|{value}; exactly one should.");
    }

    /// <summary>Every patient who carries this identifier; normally none or one.</summary>
    public async Task<IReadOnlyList<Patient>> FindPatientsAsync(string system, string value, CancellationToken cancellation)
    {
        var found = new List<Patient>();
        await foreach (var patient in SearchAsync<Patient>($"identifier={FhirSearch.Token(system, value)}", cancellation))
        {
            if (patient.Identifier.Any(i => i.System == system && i.Value == value))
            {
                found.Add(patient);
            }
        }

        return found;
    }

    /// <summary>Every report whose subject is <paramref name="patient"/> (<c>Patient/id</c>) and whose code is ours.</summary>
    public async Task<IReadOnlyList<DiagnosticReport>> ReportsOfPatientAsync(
        string patient, string codeSystem, string code, CancellationToken cancellation)
    {
        var reports = new List<DiagnosticReport>();
        await foreach (var report in SearchAsync<DiagnosticReport>(
            $"subject={Escape(patient)}&code={FhirSearch.Token(codeSystem, code)}", cancellation))
        {
            var subject = report.Subject?.Reference;
            if (subject is not null && Local(subject) == patient && report.Code.Coding.Any(c => c.System == codeSystem && c.Code == code))
            {
                reports.Add(report);
            }
        }

        return reports;
    }

    /// <summary>The report with what its session is read from: set-up response, Observations, Devices.</summary>
    public Task<IReadOnlyList<Resource>> ResourcesOfAsync(DiagnosticReport report, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(report);
        return new ReportMembers(this, [], []).OfAsync(report, cancellation);
    }

    /// <summary>One resource by its id; null if the server answers with another type.</summary>
    /// <exception cref="RecordReadException">The server answered with an error.</exception>
    public async Task<T?> ReadAsync<T>(string id, CancellationToken cancellation)
        where T : Resource => await GetAsync($"{typeof(T).Name}/{Uri.EscapeDataString(id)}", cancellation) as T;

    /// <summary>Number of resources of a type the server reports for an unfiltered search.</summary>
    public async Task<int> CountAsync(string type, CancellationToken cancellation)
    {
        var bundle = (Bundle)await GetAsync($"{type}?_count=1", cancellation);
        return bundle.Total ?? throw new RecordReadException($"The server gives no total for {type}.");
    }

    /// <summary>Every match on every page; what matches is for the caller to check.</summary>
    internal async IAsyncEnumerable<T> SearchAsync<T>(
        string query, [EnumeratorCancellation] CancellationToken cancellation, int pageSize = 100)
        where T : Resource
    {
        var next = $"{typeof(T).Name}?{query}&_count={pageSize}";
        var asked = new HashSet<string>(StringComparer.Ordinal);
        while (next is not null)
        {
            if (!asked.Add(next))
            {
                throw new RecordReadException($"A search for {typeof(T).Name} goes round in a circle: its next page is one that was read before.");
            }

            if (await GetAsync(next, cancellation) is not Bundle page)
            {
                throw new RecordReadException($"A search for {typeof(T).Name} did not answer with a Bundle.");
            }

            foreach (var match in page.Entry.Select(e => e.Resource).OfType<T>())
            {
                yield return match;
            }

            next = page.NextLink is { } link ? OnSameServer(link) : null;
        }
    }

    // The request carries a token and names a patient: neither goes to another server because an answer says so.
    private string OnSameServer(Uri link)
    {
        var page = new Uri(fhirBase, link);
        return Uri.Compare(page, fhirBase, UriComponents.SchemeAndServer, UriFormat.Unescaped, StringComparison.OrdinalIgnoreCase) == 0
            ? page.AbsoluteUri
            : throw new RecordReadException($"The server names a next page on another server, {page.Host}; it is not asked.");
    }

    internal async Task<Resource> GetAsync(string url, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(fhirBase, url));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
        using var answer = await http.SendAsync(request, cancellation);
        if (!answer.IsSuccessStatusCode)
        {
            throw new RecordReadException($"The server answered {(int)answer.StatusCode} when asked for {url.Split('?')[0]}.") { Status = answer.StatusCode };
        }

        var body = await answer.Content.ReadAsStringAsync(cancellation);
        return Parser.DeserializeResource(body);
    }

    /// <summary>True for a reference to the Patient with this id, relative or absolute.</summary>
    public static bool IsOf(ResourceReference? subject, string patientId) => subject?.Reference is { } reference && Local(reference) == $"Patient/{patientId}";

    internal static string Key(Resource resource) => $"{resource.TypeName}/{resource.Id}";

    internal static string Local(string reference)
    {
        var identity = new ResourceIdentity(reference);
        return $"{identity.ResourceType}/{identity.Id}";
    }

    private static string Escape(string part) => Uri.EscapeDataString(part);
}
