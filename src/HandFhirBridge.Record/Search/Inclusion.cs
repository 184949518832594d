namespace HandFhirBridge.Record.Search;

/// <summary>An <c>_include</c> or <c>_revinclude</c>.</summary>
/// <param name="SourceType">Type that holds the reference.</param>
/// <param name="Parameter">Reference parameter.</param>
/// <param name="TargetType">Type it must point at; null for any.</param>
/// <param name="Reverse">True for <c>_revinclude</c>.</param>
/// <param name="Iterate">True to follow what was included as well.</param>
internal sealed record Inclusion(string SourceType, SearchParameter Parameter, string? TargetType, bool Reverse, bool Iterate);
