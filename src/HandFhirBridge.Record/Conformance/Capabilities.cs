using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;

namespace HandFhirBridge.Record.Conformance;

/// <summary>Says what this server does (R4 http.html#capabilities), from the same lists that do it.</summary>
internal static class Capabilities
{
    private const string Limits = """
        Searches one type at a time. A search parameter, modifier or prefix that is not listed is refused with 400, unless Prefer: handling=lenient
        leaves an unknown parameter out; the self link says what was used. Not supported: special parameters, composites with a part outside
        their element, the prefix ap, search by canonical units, search of the whole system, patch, conditional delete,
        operations that are not listed, validation against profiles that are not listed, and integrity of references beyond one transaction.
        """;

    private static readonly CapabilityStatement.TypeRestfulInteraction[] Interactions =
    [
        CapabilityStatement.TypeRestfulInteraction.Read, CapabilityStatement.TypeRestfulInteraction.Vread,
        CapabilityStatement.TypeRestfulInteraction.Update, CapabilityStatement.TypeRestfulInteraction.Delete,
        CapabilityStatement.TypeRestfulInteraction.HistoryInstance, CapabilityStatement.TypeRestfulInteraction.HistoryType,
        CapabilityStatement.TypeRestfulInteraction.Create, CapabilityStatement.TypeRestfulInteraction.SearchType,
    ];

    // Operations of every type.
    private const string OfEach = "*";

    private static readonly (string Type, string Name, string Definition)[] Operations =
    [
        (OfEach, "validate", "http://hl7.org/fhir/OperationDefinition/Resource-validate"),
        ("Observation", "lastn", "http://hl7.org/fhir/OperationDefinition/Observation-lastn"),
        ("Observation", "stats", "http://hl7.org/fhir/OperationDefinition/Observation-stats"),
        ("Patient", "everything", "http://hl7.org/fhir/OperationDefinition/Patient-everything"),
        ("", "export", "http://hl7.org/fhir/uv/bulkdata/OperationDefinition/export"),
        ("Patient", "export", "http://hl7.org/fhir/uv/bulkdata/OperationDefinition/patient-export"),
        ("Group", "export", "http://hl7.org/fhir/uv/bulkdata/OperationDefinition/group-export"),
    ];

    private static readonly ILookup<string, string> Pointing = ResourceTypes.All
        .SelectMany(type => References(type).SelectMany(p => p.Targets.Select(target => (target, Name: $"{type}:{p.Name}"))))
        .ToLookup(p => p.target, p => p.Name);

    public static CapabilityStatement Statement(string baseUrl, DateTimeOffset now, RecordOptions options) => new()
    {
        Status = PublicationStatus.Active,
        DateElement = new FhirDateTime(now),
        Kind = CapabilityStatementKind.Instance,
        Software = new() { Name = "HandFhirBridge embedded record", Version = typeof(Capabilities).Assembly.GetName().Version?.ToString(3) },
        Implementation = new() { Description = "A small FHIR record for trying out, tests and a single small clinic.", Url = baseUrl },
        // FHIR Bulk Data Access 2.0.0, CapabilityStatement-bulk-data.
        Instantiates = ["http://hl7.org/fhir/uv/bulkdata/CapabilityStatement/bulk-data"],
        FhirVersion = FHIRVersion.N4_0_1,
        Format = MediaTypes.Spoken,
        Rest =
        [
            new()
            {
                Mode = CapabilityStatement.RestfulCapabilityMode.Server,
                Documentation = $"{Limits.ReplaceLineEndings(" ")}A request body may have {options.MaxBodyBytes} bytes, a page {options.MaxPageSize} matches.",
                Interaction =
                [
                    new() { Code = CapabilityStatement.SystemRestfulInteraction.Transaction },
                    new() { Code = CapabilityStatement.SystemRestfulInteraction.Batch },
                    new() { Code = CapabilityStatement.SystemRestfulInteraction.HistorySystem },
                ],
                Operation = OperationsOf(""),
                Security = options.Security,
                Resource = [.. ResourceTypes.All.Select(type => Resource(type, options.Profiles))],
            },
        ],
    };

    private static IEnumerable<Search.SearchParameter> References(string type) => SearchParameters.Of(type).Values
        .Where(p => p.Type == SearchParamType.Reference).OrderBy(p => p.Name, StringComparer.Ordinal);

    // Those of the whole system stand under no type.
    private static List<CapabilityStatement.OperationComponent> OperationsOf(string type) =>
        [.. Operations.Where(o => o.Type == type || (o.Type == OfEach && type.Length > 0)).Select(o => new CapabilityStatement.OperationComponent { Name = o.Name, Definition = o.Definition })];

    private static CapabilityStatement.ResourceComponent Resource(string type, IRecordProfiles? profiles) => new()
    {
        Type = type,
        SupportedProfile = [.. (profiles?.All ?? []).Where(profile => profile.Type == type).Select(profile => $"{profile.Url}|{profile.Version}")],
        Interaction = [.. Interactions.Select(i => new CapabilityStatement.ResourceInteractionComponent { Code = i })],
        Versioning = CapabilityStatement.ResourceVersionPolicy.VersionedUpdate,
        ReadHistory = true,
        UpdateCreate = true,
        ConditionalCreate = true,
        ConditionalRead = CapabilityStatement.ConditionalReadStatus.FullSupport,
        ConditionalUpdate = true,
        ConditionalDelete = CapabilityStatement.ConditionalDeleteStatus.NotSupported,
        Operation = OperationsOf(type),
        ReferencePolicy = [CapabilityStatement.ReferenceHandlingPolicy.Literal, CapabilityStatement.ReferenceHandlingPolicy.Logical],
        SearchInclude = [.. References(type).Select(p => $"{type}:{p.Name}")],
        SearchRevInclude = [.. Pointing[type].Distinct()],
        SearchParam =
        [
            .. SearchParameters.Of(type).Values.OrderBy(p => p.Name, StringComparer.Ordinal).Select(p => new CapabilityStatement.SearchParamComponent
            {
                Name = p.Name,
                Type = p.Type,
                Documentation = $"Modifiers: {string.Join(", ", Modifiers.Of(p.Type))}.",
            }),
        ],
    };
}
