using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Interactions;

/// <summary>The resource types that are served: all of R4.</summary>
internal static class ResourceTypes
{
    public static IReadOnlyList<string> All { get; } = [.. ModelInfo.SupportedResources.Order(StringComparer.Ordinal)];

    private static readonly HashSet<string> Names = [.. All];

    public static bool Has(string type) => Names.Contains(type);

    /// <summary>Refuses (404) what is no resource type.</summary>
    public static string Demand(string type) => Has(type) ? type : throw RecordRefusal.NotFound($"There is no resource type \"{type}\" in FHIR R4.");
}
