using Hl7.Fhir.Model;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>What belongs to a report's session: taken from what is in hand, and read one by one where it is not.</summary>
internal sealed class ReportMembers
{
    private readonly RecordReader record;
    private readonly Dictionary<string, Resource> held = new(StringComparer.Ordinal);
    private readonly ILookup<string, Observation> derived;

    /// <param name="record">Reads the server.</param>
    /// <param name="observations">Observations in hand.</param>
    /// <param name="responses">Responses in hand.</param>
    public ReportMembers(RecordReader record, IReadOnlyCollection<Observation> observations, IReadOnlyCollection<QuestionnaireResponse> responses)
    {
        this.record = record;
        foreach (var resource in observations.Concat<Resource>(responses))
        {
            held.TryAdd(RecordReader.Key(resource), resource);
        }

        derived = observations
            .SelectMany(o => o.DerivedFrom.Where(d => d.Reference is not null).Select(d => (From: RecordReader.Local(d.Reference!), Observation: o)))
            .ToLookup(d => d.From, d => d.Observation);
    }

    /// <summary>The report, its set-up response, the Observations of its session and their Devices.</summary>
    public async Task<IReadOnlyList<Resource>> OfAsync(DiagnosticReport report, CancellationToken cancellation)
    {
        var members = new Dictionary<string, Resource>(StringComparer.Ordinal) { [RecordReader.Key(report)] = report };
        if (report.GetExtensionValue<ResourceReference>(RecordReader.SupportingInfo)?.Reference is { } response)
        {
            await AddAsync(members, response, cancellation);
            // Attempts that do not count derive from the set-up response and are not among the report's results.
            await AddDerivedAsync(members, RecordReader.Local(response), cancellation);
        }

        foreach (var result in report.Result.Select(r => r.Reference).OfType<string>())
        {
            await AddAsync(members, result, cancellation);
        }

        foreach (var device in members.Values.OfType<Observation>().Select(o => o.Device?.Reference).OfType<string>().Distinct().ToList())
        {
            await AddAsync(members, device, cancellation);
        }

        return [.. members.Values];
    }

    private async System.Threading.Tasks.Task AddDerivedAsync(Dictionary<string, Resource> members, string response, CancellationToken cancellation)
    {
        var known = derived[response].ToList();
        if (known.Count == 0)
        {
            await foreach (var observation in record.SearchAsync<Observation>($"derived-from={Uri.EscapeDataString(response)}", cancellation))
            {
                if (observation.DerivedFrom.Any(d => d.Reference is not null && RecordReader.Local(d.Reference) == response))
                {
                    known.Add(observation);
                }
            }
        }

        foreach (var observation in known)
        {
            members.TryAdd(RecordReader.Key(observation), observation);
        }
    }

    private async System.Threading.Tasks.Task AddAsync(Dictionary<string, Resource> members, string reference, CancellationToken cancellation)
    {
        var key = RecordReader.Local(reference);
        if (members.ContainsKey(key))
        {
            return;
        }

        if (!held.TryGetValue(key, out var resource))
        {
            resource = await record.GetAsync(key, cancellation);
            held[key] = resource;
        }

        members.TryAdd(key, resource);
    }
}
