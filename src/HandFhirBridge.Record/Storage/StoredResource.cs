using System.Globalization;

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
    public string ETag => string.Create(CultureInfo.InvariantCulture, $"W/\"{Version}\"");

    public string Reference => $"{Type}/{Id}";

    public string VersionUrl => string.Create(CultureInfo.InvariantCulture, $"{Reference}/_history/{Version}");

    public DateTimeOffset LastModified => DateTimeOffset.Parse(Updated, CultureInfo.InvariantCulture);
}
