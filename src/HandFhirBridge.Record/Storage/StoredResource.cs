using System.Globalization;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Storage;

/// <summary>One version of a resource as it lies in the database.</summary>
/// <param name="Type">Resource type.</param>
/// <param name="Id">Logical id.</param>
/// <param name="Version">Version, from 1.</param>
/// <param name="Updated">Instant of the version, as in <c>meta.lastUpdated</c>.</param>
/// <param name="Deleted">True for the version that a deletion makes.</param>
/// <param name="Json">The resource; null where deleted.</param>
internal sealed record StoredResource(string Type, string Id, long Version, string Updated, bool Deleted, string? Json)
{
    // It was checked when it came in; a decimal beyond .NET's is still none that it must be refused for.
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    public string ETag => string.Create(CultureInfo.InvariantCulture, $"W/\"{Version}\"");

    public string Reference => $"{Type}/{Id}";

    public string VersionUrl => string.Create(CultureInfo.InvariantCulture, $"{Reference}/_history/{Version}");

    /// <summary>The resource, taken apart.</summary>
    /// <exception cref="InvalidOperationException">It is a deletion.</exception>
    public Resource Resource()
    {
        Deserializer.TryDeserializeResource(Json ?? throw new InvalidOperationException($"{VersionUrl} is a deletion."), out var resource, out _);
        return resource!;
    }

    public DateTimeOffset LastModified => DateTimeOffset.Parse(Updated, CultureInfo.InvariantCulture);
}
