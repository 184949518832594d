using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>A transaction that puts each resource where it belongs.</summary>
internal static class BundleMapper
{
    public static Bundle Map(IEnumerable<Resource> resources) => new()
    {
        Type = Bundle.BundleType.Transaction,
        Entry = [.. resources.Select(Entry)],
    };

    private static Bundle.EntryComponent Entry(Resource resource) => new()
    {
        FullUrl = ResourceIds.Urn(resource.Id!),
        Resource = resource,
        Request = new() { Method = Bundle.HTTPVerb.PUT, Url = $"{resource.TypeName}/{resource.Id}" },
    };
}
