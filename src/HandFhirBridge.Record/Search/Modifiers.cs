using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Which modifiers each type of parameter takes here; any other is refused, because to ignore one changes the answer.</summary>
internal static class Modifiers
{
    public static IReadOnlyList<string> Of(SearchParamType type) => type switch
    {
        SearchParamType.String => ["missing", "exact", "contains"],
        SearchParamType.Token => ["missing", "not"],
        SearchParamType.Reference => ["missing", "identifier"],
        SearchParamType.Uri => ["missing", "below"],
        // The parts of a composite take none, so it has none of its own either.
        SearchParamType.Composite => [],
        _ => ["missing"],
    };

    public static void Demand(SearchParameter parameter, string? modifier, string name)
    {
        var allowed = Of(parameter.Type);
        var isType = parameter.Type == SearchParamType.Reference && modifier is not null && parameter.Targets.Contains(modifier);
        if (modifier is not null && !isType && !allowed.Contains(modifier))
        {
            throw RecordRefusal.BadRequest($"The modifier of \"{name}\" is not supported; {parameter.Name} takes {(allowed.Count == 0 ? "none" : string.Join(", ", allowed))}.");
        }
    }
}
