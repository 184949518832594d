namespace HandFhirBridge.Record.Search;

/// <summary>One condition of a search: a parameter, perhaps a modifier or a chain, and the values of which one must hold.</summary>
/// <param name="Parameter">The parameter.</param>
/// <param name="Modifier">What follows the colon; null if nothing does.</param>
/// <param name="Chain">Criterion on the target of a reference; null if not chained.</param>
/// <param name="ChainType">Type of the target where chained.</param>
/// <param name="Values">Alternatives, unescaped only where they are compared.</param>
internal sealed record Criterion(
    SearchParameter Parameter, string? Modifier, Criterion? Chain, string? ChainType, IReadOnlyList<string> Values);
