using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>One page of a history.</summary>
/// <param name="Total">Number of versions on all pages.</param>
/// <param name="Versions">Versions, newest first, deletions among them.</param>
/// <param name="Next">Where the next page begins; null on the last.</param>
internal sealed record HistoryPage(int Total, IReadOnlyList<StoredResource> Versions, PageMark? Next);
