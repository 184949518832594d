using System.Text.Json;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>One resource of a search answer.</summary>
/// <param name="Type">Resource type.</param>
/// <param name="Id">Logical id.</param>
/// <param name="Resource">The resource.</param>
/// <param name="IsMatch">False for a resource that was only included.</param>
public sealed record SearchHit(string Type, string Id, JsonElement Resource, bool IsMatch)
{
    /// <summary><c>meta.versionId</c>; null if the server gives none.</summary>
    public string? VersionId => Resource.Object("meta").Text("versionId");

    /// <summary>True if the resource carries exactly this identifier.</summary>
    public bool Carries(string system, string value) => Identifiers.Any(i => i.Text("system") == system && i.Text("value") == value);

    /// <summary>Its identifiers.</summary>
    public IEnumerable<JsonElement> Identifiers => Resource.Identifiers();
}
