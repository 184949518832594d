using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Search;

/// <summary>One page of what a search found.</summary>
/// <param name="Total">Number of matches on all pages; null where it was not asked for.</param>
/// <param name="Matches">Matches of this page.</param>
/// <param name="Included">What they include.</param>
/// <param name="Next">Where this page ends; null if nothing follows.</param>
internal sealed record SearchPage(int? Total, IReadOnlyList<StoredResource> Matches, IReadOnlyList<StoredResource> Included, PageMark? Next);
