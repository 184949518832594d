using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;

namespace HandFhirBridge.Record.Conformance;

/// <summary>Says what this server does (R4 http.html#capabilities); made from the same lists that do it.</summary>
internal static class Capabilities
{
    private static readonly CapabilityStatement.TypeRestfulInteraction[] Interactions =
    [
        CapabilityStatement.TypeRestfulInteraction.Read, CapabilityStatement.TypeRestfulInteraction.Vread,
        CapabilityStatement.TypeRestfulInteraction.Update, CapabilityStatement.TypeRestfulInteraction.Delete,
        CapabilityStatement.TypeRestfulInteraction.HistoryInstance, CapabilityStatement.TypeRestfulInteraction.Create,
        CapabilityStatement.TypeRestfulInteraction.SearchType,
    ];

    public static CapabilityStatement Statement(Uri baseUrl, DateTimeOffset now) => new()
    {
        Status = PublicationStatus.Active,
        DateElement = new FhirDateTime(now),
        Kind = CapabilityStatementKind.Instance,
        Software = new() { Name = "HandFhirBridge embedded record", Version = typeof(Capabilities).Assembly.GetName().Version?.ToString(3) },
        Implementation = new()
        {
            Description = "A small FHIR record for trying out, tests and a single small clinic. No sign-in: loopback only.",
            Url = baseUrl.OriginalString,
        },
        FhirVersion = FHIRVersion.N4_0_1,
        Format = ["application/fhir+json"],
        Rest =
        [
            new()
            {
                Mode = CapabilityStatement.RestfulCapabilityMode.Server,
                Documentation = "Searches a type at a time. A search parameter or modifier that is not listed is refused, unless Prefer: handling=lenient. Composite and special parameters, _has, _summary, _elements, whole-system search and history, and XML are not supported.",
                Interaction =
                [
                    new() { Code = CapabilityStatement.SystemRestfulInteraction.Transaction },
                    new() { Code = CapabilityStatement.SystemRestfulInteraction.Batch },
                ],
                Resource = [.. ModelInfo.SupportedResources.Where(t => t is not ("Bundle" or "Parameters")).Order(StringComparer.Ordinal).Select(Resource)],
            },
        ],
    };

    private static CapabilityStatement.ResourceComponent Resource(string type)
    {
        var parameters = SearchParameters.Of(type).Values.OrderBy(p => p.Name, StringComparer.Ordinal).ToList();
        var references = parameters.Where(p => p.Type == SearchParamType.Reference).Select(p => $"{type}:{p.Name}");
        return new()
        {
            Type = type,
            Interaction = [.. Interactions.Select(i => new CapabilityStatement.ResourceInteractionComponent { Code = i })],
            Versioning = CapabilityStatement.ResourceVersionPolicy.VersionedUpdate,
            ReadHistory = true,
            UpdateCreate = true,
            ConditionalCreate = true,
            ConditionalUpdate = true,
            ConditionalDelete = CapabilityStatement.ConditionalDeleteStatus.NotSupported,
            SearchInclude = references,
            SearchParam =
            [
                .. parameters.Select(p => new CapabilityStatement.SearchParamComponent
                {
                    Name = p.Name,
                    Type = p.Type,
                    Documentation = $"Modifiers: {string.Join(", ", Modifiers.Of(p.Type))}.",
                }),
            ],
        };
    }
}
