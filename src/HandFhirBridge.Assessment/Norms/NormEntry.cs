using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>A norm table as one person typed it from the source.</summary>
/// <param name="SetId">Id the set will have.</param>
/// <param name="Instrument">Instrument id.</param>
/// <param name="Title">Name shown beside scores.</param>
/// <param name="Source">Citation.</param>
/// <param name="EnteredBy">Who typed it.</param>
/// <param name="EnteredAt">When.</param>
/// <param name="Rows">Cells.</param>
public sealed record NormEntry(
    string SetId, string Instrument, string Title, string Source, string EnteredBy, DateTimeOffset EnteredAt, ImmutableArray<NormRow> Rows);
