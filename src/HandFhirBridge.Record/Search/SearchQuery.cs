namespace HandFhirBridge.Record.Search;

/// <summary>A search as it was understood.</summary>
/// <param name="Type">Resource type.</param>
/// <param name="Criteria">All must hold.</param>
/// <param name="Sort">Parameters to sort by, in order; true is descending.</param>
/// <param name="Includes">What to include.</param>
/// <param name="Count">Matches a page; 0 asks for the total alone.</param>
/// <param name="After">Where the page before ended; null for the first page.</param>
/// <param name="WithTotal">Whether matches are counted.</param>
/// <param name="Excerpt">How much of each resource is returned.</param>
/// <param name="Used">The query as it was understood, for the links.</param>
internal sealed record SearchQuery(
    string Type,
    IReadOnlyList<Criterion> Criteria,
    IReadOnlyList<(SearchParameter Parameter, bool Descending)> Sort,
    IReadOnlyList<Inclusion> Includes,
    int Count,
    PageMark? After,
    bool WithTotal,
    Excerpt Excerpt,
    IReadOnlyList<KeyValuePair<string, string>> Used);
