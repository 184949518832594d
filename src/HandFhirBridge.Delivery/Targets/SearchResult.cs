using System.Collections.Immutable;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Everything a search gave, all pages together, each resource once.</summary>
/// <param name="Hits">Resources that have a type and an id, in the server's order.</param>
/// <param name="Failure">Answer that stood in the way; null if the search was answered.</param>
/// <param name="IsComplete">False if the server has, or may have, more than came: pages that cannot be followed, a larger total, resources without a usable id.</param>
public sealed record SearchResult(ImmutableArray<SearchHit> Hits, TargetAnswer? Failure, bool IsComplete);
