namespace HandFhirBridge.Record.Search;

/// <summary>A <c>_has</c> (R4 search.html#has): some resource of another type refers to the one that is searched, and meets a criterion.</summary>
/// <param name="Type">Type of the resource that refers.</param>
/// <param name="Target">Type that is searched.</param>
/// <param name="Criterion">What must hold for the one that refers.</param>
internal sealed record Reversal(string Type, string Target, Criterion Criterion);
