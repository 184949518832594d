using System.Net.Http.Headers;
using System.Runtime.CompilerServices;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>
/// Reads what a FHIR R4 server holds of our sessions. Uses plain searches only, so that it works on servers without
/// includes, and checks what comes back, because some servers ignore a parameter they do not know.
/// </summary>
/// <param name="http">Client that signs in as the target asks.</param>
/// <param name="fhirBase">The server's FHIR base; ends with a slash.</param>
public sealed class RecordReader(HttpClient http, Uri fhirBase)
{
    private const string SupportingInfo = "http://hl7.org/fhir/StructureDefinition/workflow-supportingInfo";
    private static readonly FhirJsonDeserializer Parser = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    /// <summary>The report that carries this identifier, or null if the server has none.</summary>
    /// <exception cref="RecordReadException">The server answered with an error, or more than one report carries the identifier.</exception>
    public async Task<DiagnosticReport?> FindReportAsync(string system, string value, CancellationToken cancellation)
    {
        var found = new List<DiagnosticReport>();
        await foreach (var report in SearchAsync<DiagnosticReport>($"identifier={Escape(system)}|{Escape(value)}", cancellation))
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
        await foreach (var patient in SearchAsync<Patient>($"identifier={Escape(system)}|{Escape(value)}", cancellation))
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
            $"subject={Escape(patient)}&code={Escape(codeSystem)}|{Escape(code)}", cancellation))
        {
            var subject = report.Subject?.Reference;
            if (subject is not null && Local(subject) == patient && report.Code.Coding.Any(c => c.System == codeSystem && c.Code == code))
            {
                reports.Add(report);
            }
        }

        return reports;
    }

    /// <summary>The report with everything that belongs to its session: set-up response, Observations, Provenance, Devices.</summary>
    public async Task<IReadOnlyList<Resource>> ResourcesOfAsync(DiagnosticReport report, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(report);
        var held = new Dictionary<string, Resource> { [Key(report)] = report };
        var response = report.GetExtensionValue<ResourceReference>(SupportingInfo)?.Reference;
        if (response is not null)
        {
            await AddAsync(held, response, cancellation);
            // Trials and uncounted attempts derive from the set-up response; the latter are not in the report's results.
            await foreach (var observation in SearchAsync<Observation>($"derived-from={Escape(Local(response))}", cancellation))
            {
                if (observation.DerivedFrom.Any(d => d.Reference is not null && Local(d.Reference) == Local(response)))
                {
                    held.TryAdd(Key(observation), observation);
                }
            }
        }

        foreach (var result in report.Result.Select(r => r.Reference).OfType<string>())
        {
            await AddAsync(held, result, cancellation);
        }

        await foreach (var provenance in SearchAsync<Provenance>($"target={Escape(Key(report))}", cancellation))
        {
            if (provenance.Target.Any(t => t.Reference is not null && Local(t.Reference) == Key(report)))
            {
                held.TryAdd(Key(provenance), provenance);
            }
        }

        var devices = held.Values.OfType<Observation>().Select(o => o.Device)
            .Concat(held.Values.OfType<Provenance>().SelectMany(p => p.Agent).Select(a => a.Who))
            .Select(r => r?.Reference)
            .OfType<string>()
            .Where(r => r.Contains("Device/", StringComparison.Ordinal));
        foreach (var device in devices.ToList())
        {
            await AddAsync(held, device, cancellation);
        }

        return [.. held.Values];
    }

    /// <summary>Number of resources of a type the server reports for an unfiltered search.</summary>
    public async Task<int> CountAsync(string type, CancellationToken cancellation)
    {
        var bundle = (Bundle)await GetAsync($"{type}?_count=1", cancellation);
        return bundle.Total ?? throw new RecordReadException($"The server gives no total for {type}.");
    }

    private async IAsyncEnumerable<T> SearchAsync<T>(string query, [EnumeratorCancellation] CancellationToken cancellation)
        where T : Resource
    {
        var next = $"{typeof(T).Name}?{query}&_count=100";
        while (next is not null)
        {
            if (await GetAsync(next, cancellation) is not Bundle page)
            {
                throw new RecordReadException($"A search for {typeof(T).Name} did not answer with a Bundle.");
            }

            foreach (var match in page.Entry.Select(e => e.Resource).OfType<T>())
            {
                yield return match;
            }

            next = page.NextLink?.OriginalString;
        }
    }

    private async System.Threading.Tasks.Task AddAsync(Dictionary<string, Resource> held, string reference, CancellationToken cancellation)
    {
        if (!held.ContainsKey(Local(reference)))
        {
            held[Local(reference)] = await GetAsync(Local(reference), cancellation);
        }
    }

    private async Task<Resource> GetAsync(string url, CancellationToken cancellation)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(fhirBase, url));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
        using var answer = await http.SendAsync(request, cancellation);
        if (!answer.IsSuccessStatusCode)
        {
            throw new RecordReadException($"The server answered {(int)answer.StatusCode} when asked for {url.Split('?')[0]}.");
        }

        var body = await answer.Content.ReadAsStringAsync(cancellation);
        return Parser.DeserializeResource(body);
    }

    private static string Key(Resource resource) => $"{resource.TypeName}/{resource.Id}";

    private static string Local(string reference)
    {
        var identity = new ResourceIdentity(reference);
        return $"{identity.ResourceType}/{identity.Id}";
    }

    private static string Escape(string part) => Uri.EscapeDataString(part);
}
