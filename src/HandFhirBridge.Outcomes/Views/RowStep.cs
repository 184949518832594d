using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A selection, compiled: what it fills in a row, and how it multiplies rows.</summary>
/// <param name="Unnesting">How its elements are found.</param>
/// <param name="Over">Compiled paths of the elements.</param>
/// <param name="Cells">Columns of its own.</param>
/// <param name="Steps">Selections within, one after the other.</param>
/// <param name="Branches">Selections of a union.</param>
internal sealed record RowStep(
    Unnesting Unnesting, ImmutableArray<ViewExpression> Over, ImmutableArray<RowCell> Cells, ImmutableArray<RowStep> Steps, ImmutableArray<RowStep> Branches);
