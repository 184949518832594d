using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>The resources of one session: what the report refers to, each with its own identifier of that session.</summary>
internal sealed class SessionMembers
{
    private readonly ResourceSet set;
    private readonly Place place;
    private readonly Dictionary<(string System, string Value), Observation> results = [];

    public SessionMembers(ResourceSet set, DiagnosticReport report, SessionKeys keys, Place place)
    {
        (this.set, this.place, Report, Keys) = (set, place, report, keys);
        foreach (var reference in report.Result)
        {
            AddResult(reference);
        }
    }

    public DiagnosticReport Report { get; }

    public SessionKeys Keys { get; }

    /// <summary>The set-up response the report names.</summary>
    public QuestionnaireResponse? SetupResponse()
    {
        var references = Report.Extension.Where(e => e.Url == Extensions.SupportingInfo).Select(e => e.Value as ResourceReference);
        var response = references.Select(set.Resolve<QuestionnaireResponse>)
            .FirstOrDefault(r => r?.Identifier?.System == IdentifierSystems.SetupResponse && r.Identifier.Value == Keys.Session);
        if (response is null)
        {
            place.Add(ReadingProblems.ResourceMissing, $"refers to no set-up response of {Keys.Session} that was given.");
        }

        return response;
    }

    /// <summary>The result with this identifier.</summary>
    public Observation? Result(string system, string value)
    {
        if (results.TryGetValue((system, value), out var observation))
        {
            return observation;
        }

        place.At("result").Add(ReadingProblems.ResourceMissing, $"has no {value} among what was given.", value);
        return null;
    }

    /// <summary>
    /// Attempts of this session that do not count; the report does not list them. One that a correction took out stands there as
    /// entered in error; one that should not be out leaves a gap in the order run.
    /// </summary>
    public IEnumerable<Observation> Uncounted() => set.All.OfType<Observation>()
        .Where(o => o.Status != ObservationStatus.EnteredInError && IdentifierOf(o) is { } identifier && identifier.System == IdentifierSystems.Attempt
            && identifier.Value.StartsWith(Keys.Session + "/", StringComparison.Ordinal));

    /// <summary>What a reference points to, noted if it was not given.</summary>
    public T? Resolve<T>(ResourceReference? reference, Place from)
        where T : Resource
    {
        var found = set.Resolve<T>(reference);
        if (found is null)
        {
            from.Add(ReadingProblems.ResourceMissing, $"refers to {reference?.Reference ?? "nothing"}, which was not given.", reference?.Reference);
        }

        return found;
    }

    /// <summary>Notes references that are not exactly to the results with the identifiers <paramref name="expected"/>.</summary>
    public void CheckPoints(IEnumerable<ResourceReference> references, IEnumerable<string> expected, Place from)
    {
        var found = references.Select(set.Resolve<Observation>).Select(o => o is null ? null : IdentifierOf(o)?.Value).Order(StringComparer.Ordinal).ToList();
        var wanted = expected.Order(StringComparer.Ordinal).ToList();
        if (!found.SequenceEqual(wanted, StringComparer.Ordinal))
        {
            var missing = string.Join(", ", wanted.Except(found, StringComparer.Ordinal));
            from.Contradicts($"{found.Count} references", $"it should point to each result it was made of and to nothing else (not there: {missing})");
        }
    }

    /// <summary>The identifier of ours that an observation carries.</summary>
    public static (string System, string Value)? IdentifierOf(Observation observation) => observation.Identifier
        .Where(i => i.System is IdentifierSystems.Trial or IdentifierSystems.Attempt or IdentifierSystems.Total or IdentifierSystems.Panel
            or IdentifierSystems.Dominance && i.Value is not null)
        .Select(i => ((string, string)?)(i.System!, i.Value!)).FirstOrDefault();

    private void AddResult(ResourceReference reference)
    {
        if (Resolve<Observation>(reference, place.At("result")) is not { } observation)
        {
            return;
        }

        if (IdentifierOf(observation) is not { } identifier)
        {
            place.At("result").NotUnderstood(reference.Reference, "a result with an identifier of ours");
        }
        else if (!results.TryAdd(identifier, observation))
        {
            place.At("result").Add(ReadingProblems.CopiesDiffer, $"lists {identifier.Value} twice.", identifier.Value);
        }
    }
}
