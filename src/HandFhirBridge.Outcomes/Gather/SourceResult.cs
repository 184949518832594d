using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Gather;

/// <summary>What came of gathering one source.</summary>
/// <param name="Source">Its name.</param>
/// <param name="Method"><c>export</c> or <c>search</c>; null if it did not come to that.</param>
/// <param name="Read">Resources that came, changed or new.</param>
/// <param name="Held">Resources held now, by type.</param>
/// <param name="Notes">What was noticed and does not stand in the way, such as parameters the server ignores.</param>
/// <param name="Problem">Why it failed; null if it did not. What was gathered before is then unchanged.</param>
public sealed record SourceResult(
    string Source, string? Method, long Read, ImmutableSortedDictionary<string, long> Held, ImmutableArray<string> Notes, Problem? Problem);
