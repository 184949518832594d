using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Search;

/// <summary>One page of a search.</summary>
/// <param name="Total">Matches in all.</param>
/// <param name="Matches">Matches of this page.</param>
/// <param name="Included">What they include, without the matches themselves.</param>
internal sealed record SearchPage(int Total, IReadOnlyList<StoredResource> Matches, IReadOnlyList<StoredResource> Included);
