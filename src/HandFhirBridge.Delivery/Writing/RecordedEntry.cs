using System.Text.Json;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>A resource of the session that the target already holds.</summary>
/// <param name="Id">Its id there.</param>
/// <param name="VersionId">Its version there; null if the target gives none.</param>
/// <param name="Resource">As the target gave it.</param>
public sealed record RecordedEntry(string Id, string? VersionId, JsonElement Resource);
