namespace HandFhirBridge.Record.Search;

/// <summary>One condition of a search: a parameter, perhaps a modifier or a chain, and the values of which one must hold.</summary>
/// <param name="Parameter">The parameter.</param>
/// <param name="Modifier">What follows the colon; null if nothing does.</param>
/// <param name="Chains">Where chained: for each type the target may have, what must hold there. One of them suffices.</param>
/// <param name="Values">Alternatives, still escaped; empty where chained.</param>
internal sealed record Criterion(
    SearchParameter Parameter, string? Modifier, IReadOnlyList<(string Type, Criterion Criterion)> Chains, IReadOnlyList<string> Values)
{
    /// <summary>Where it is a <c>_has</c>: the reference is <see cref="Parameter"/>, and this says what holds for the resource it stands in.</summary>
    public Reversal? Has { get; init; }
}
