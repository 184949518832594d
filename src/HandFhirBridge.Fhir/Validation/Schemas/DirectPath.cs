using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Newtonsoft.Json.Linq;

namespace HandFhirBridge.Fhir.Validation.Schemas;

/// <summary>
/// Follows the path of a slice's discriminator by the names of its elements. The library takes every such path for a FHIRPath
/// expression and compiles it anew for each bundle; a chain of names asks for nothing that needs an engine.
/// </summary>
/// <remarks>Like the library's own, it only tells whether an element belongs to a slice: no issue of it is ever shown.</remarks>
#pragma warning disable ExperimentalApi // Rewriting compiled schemas is the library's own extension point: see ADR 0402.
internal sealed class DirectPath : IValidatable
{
    private static readonly ResultReport NoMatch = new(ValidationResult.Failure);

    private readonly PathSelectorValidator _source;
    private readonly string[] _names;

    private DirectPath(PathSelectorValidator source)
    {
        _source = source;
        _names = source.Path.Split('.');
    }

    /// <summary>The same discriminator, followed by name where its path is a chain of names; else as it is.</summary>
    internal static IAssertion Of(PathSelectorValidator source) => source.Path.Split('.').All(IsName) ? new DirectPath(source) : source;

    /// <inheritdoc/>
    public ResultReport Validate(PocoNode input, ValidationSettings vc, ValidationState state)
    {
        IEnumerable<PocoNode> at = [input];
        foreach (var name in _names)
        {
            at = at.SelectMany(node => node.Child(name) ?? Enumerable.Empty<PocoNode>());
        }

        var selected = at.ToList();
        return (_source.Other, selected.Count) switch
        {
            (IGroupValidatable group, _) => group.Validate(selected, vc, state),
            (IValidatable single, 1) => single.Validate(selected[0], vc, state),
            (_, 1) => ResultReport.SUCCESS,
            _ => NoMatch,
        };
    }

    /// <inheritdoc/>
    public JToken ToJson() => _source.ToJson();

    // A word of FHIRPath (a function, $this, a type's name) is no name of an element.
    private static bool IsName(string part) => part.Length > 0 && char.IsAsciiLetterLower(part[0]) && part.All(char.IsAsciiLetterOrDigit);
}
