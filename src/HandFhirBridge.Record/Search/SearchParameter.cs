using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;

namespace HandFhirBridge.Record.Search;

/// <summary>A search parameter of the specification, compiled for one resource type.</summary>
/// <param name="Name">Name as used in a query.</param>
/// <param name="Type">Type of the parameter.</param>
/// <param name="Expression">FHIRPath of the specification.</param>
/// <param name="Targets">Types a reference may have; empty for other parameters.</param>
internal sealed record SearchParameter(string Name, SearchParamType Type, string Expression, IReadOnlyList<string> Targets)
{
    private static readonly FhirPathCompiler Compiler = new();
    private readonly Lazy<CompiledExpression> compiled = new(() => Compiler.Compile(Expression));

    // A reference is resolved by its type alone: the specification asks no more than "resolve() is Patient".
    private static readonly FhirEvaluationContext Context = new()
    {
        ElementResolver = reference => TypeOf(reference) is { } type && ModelInfo.GetTypeForFhirType(type) is { } poco
            ? ((Resource)Activator.CreateInstance(poco)!).ToPocoNode()
            : null,
    };

    static SearchParameter() => FhirPathCompiler.DefaultSymbolTable.AddFhirExtensions();

    /// <summary>The elements the parameter is about, in one resource.</summary>
    public IEnumerable<Base> Values(Resource resource) => compiled.Value(resource.ToPocoNode(), Context).Select(n => n.Poco);

    private static string? TypeOf(string reference)
    {
        var parts = reference.Split('/');
        return parts.Length >= 2 && ModelInfo.IsKnownResource(parts[^2]) ? parts[^2] : null;
    }
}
