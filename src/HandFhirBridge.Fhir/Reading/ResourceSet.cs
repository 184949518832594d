using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>The resources at hand, found by identifier or by reference: a server may have given its own ids and addresses.</summary>
internal sealed class ResourceSet
{
    private readonly List<Resource> all = [];
    private readonly Dictionary<string, Resource> byAddress = new(StringComparer.Ordinal);

    /// <summary>A set of <paramref name="resources"/>; bundles among them are opened.</summary>
    public ResourceSet(IEnumerable<Resource> resources, List<Problem> problems)
    {
        foreach (var (resource, fullUrl) in resources.SelectMany(Opened))
        {
            Add(resource, fullUrl, problems);
        }
    }

    /// <summary>Every resource once.</summary>
    public IReadOnlyCollection<Resource> All => all;

    /// <summary>What <paramref name="reference"/> points to, or null if it is not at hand.</summary>
    public T? Resolve<T>(ResourceReference? reference)
        where T : Resource
    {
        if (reference?.Reference is not { Length: > 0 } address)
        {
            return null;
        }

        const string urn = "urn:uuid:";
        return (byAddress.GetValueOrDefault(address)
            ?? (address.StartsWith(urn, StringComparison.Ordinal)
                ? all.Find(r => r is T && r.Id == address[urn.Length..])
                : byAddress.GetValueOrDefault(Local(address)))) as T;
    }

    /// <summary><c>Type/id</c> of a relative, absolute or versioned address.</summary>
    public static string Local(string address)
    {
        var parts = address.Split("/_history/")[0].Split('/');
        return parts.Length < 2 ? address : $"{parts[^2]}/{parts[^1]}";
    }

    private static IEnumerable<(Resource Resource, string? FullUrl)> Opened(Resource resource) => resource is Bundle bundle
        ? bundle.Entry.Where(e => e.Resource is not null).Select(e => (e.Resource!, (string?)e.FullUrl))
        : [(resource, null)];

    private void Add(Resource resource, string? fullUrl, List<Problem> problems)
    {
        var key = resource.Id is null ? fullUrl : $"{resource.TypeName}/{resource.Id}";
        if (key is not null && byAddress.TryGetValue(key, out var other))
        {
            // Pages of a search and an _include may both bring the same resource.
            if (!resource.IsExactly(other))
            {
                problems.Add(ReadingProblems.CopiesDiffer.At(key, $"{key} was given twice with different content."));
            }

            return;
        }

        all.Add(resource);
        if (key is not null)
        {
            byAddress[key] = resource;
        }

        if (fullUrl is not null)
        {
            byAddress[fullUrl] = resource;
        }
    }
}
