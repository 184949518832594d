using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>What came of a write.</summary>
/// <param name="Resource">The version that now stands; null where there was nothing to delete.</param>
/// <param name="Status">HTTP status: 201 for a new resource, 200 for a new or standing version, 204 for a deletion.</param>
internal sealed record Written(StoredResource? Resource, int Status);
