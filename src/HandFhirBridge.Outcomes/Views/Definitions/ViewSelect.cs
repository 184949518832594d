using System.Collections.Immutable;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>One selection of a view: where it looks and what it takes from there.</summary>
/// <param name="Unnesting">How its elements are found.</param>
/// <param name="Over">Paths of the elements: none, one, or for <see cref="Definitions.Unnesting.Repeat"/> several.</param>
/// <param name="Columns">Columns of its own; they come first.</param>
/// <param name="Select">Selections within each element; their rows are cross joined.</param>
/// <param name="UnionAll">Selections whose rows follow one another; all have the same columns.</param>
/// <param name="Location">JSON path in the ViewDefinition.</param>
public sealed record ViewSelect(
    Unnesting Unnesting,
    ImmutableArray<ViewPath> Over,
    ImmutableArray<ViewColumn> Columns,
    ImmutableArray<ViewSelect> Select,
    ImmutableArray<ViewSelect> UnionAll,
    string Location);
