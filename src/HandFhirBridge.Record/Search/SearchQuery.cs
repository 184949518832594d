namespace HandFhirBridge.Record.Search;

/// <summary>A search as it was asked for.</summary>
/// <param name="Type">Resource type.</param>
/// <param name="Criteria">All must hold.</param>
/// <param name="Sort">Parameters to sort by, in order; true is descending.</param>
/// <param name="Includes">What to include.</param>
/// <param name="Count">Matches a page, 0 to 1000.</param>
/// <param name="Offset">Matches before this page.</param>
/// <param name="Used">Query as it was understood, for the self link and the next one.</param>
internal sealed record SearchQuery(
    string Type,
    IReadOnlyList<Criterion> Criteria,
    IReadOnlyList<(SearchParameter Parameter, bool Descending)> Sort,
    IReadOnlyList<Inclusion> Includes,
    int Count,
    int Offset,
    IReadOnlyList<KeyValuePair<string, string>> Used);
