using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What a search for some resources of a session gave.</summary>
/// <param name="Hits">What came; whoever asks still compares it.</param>
/// <param name="Failure">The answer that stood in the way; null if there was none.</param>
/// <param name="IsTrusted">False if the target shows that it did not search for what was asked, so that a resource that did not come may be there.</param>
internal sealed record EntryHits(ImmutableArray<SearchHit> Hits, TargetAnswer? Failure, bool IsTrusted);
