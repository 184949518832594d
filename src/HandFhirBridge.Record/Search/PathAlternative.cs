using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;

namespace HandFhirBridge.Record.Search;

/// <summary>
/// One side of a parameter's union, compiled. Parameters shared by many types name one path a type, and most resources have few of the
/// elements that their type's paths begin with: both are sorted out before FHIRPath is asked, which is most of the cost of a write.
/// </summary>
/// <param name="expression">FHIRPath.</param>
/// <param name="root">Element the path begins with; null if that cannot be told.</param>
internal sealed partial class PathAlternative(string expression, string? root)
{
    private static readonly FhirPathCompiler Compiler = new();
    private static readonly ConcurrentDictionary<string, PocoNode?> Resolved = new();

    // Where the specification says "resolve() is Patient", the type in the reference answers it; nothing is fetched.
    private static readonly FhirEvaluationContext Context = new() { ElementResolver = Resolve };

    private readonly Lazy<CompiledExpression> compiled = new(() => Compiler.Compile(expression));

    static PathAlternative() => FhirPathCompiler.DefaultSymbolTable.AddFhirExtensions();

    public static IReadOnlyList<PathAlternative> Of(string union, string resourceType) =>
    [
        .. union.Split(" | ").Select(e => e.Trim()).Select(e => (Path: e, Start: Beginning().Match(e)))
            .Where(e => !e.Start.Success || e.Start.Groups["type"].Value == resourceType || e.Start.Groups["type"].Value is "Resource" or "DomainResource")
            .Select(e => new PathAlternative(e.Path, Answers().IsMatch(e.Path) ? null : e.Start.Success ? e.Start.Groups["element"].Value : Within().Match(e.Path) is { Success: true } w ? w.Value : null)),
    ];

    public bool Concerns(IReadOnlySet<string> elements) => root is null || elements.Contains(root);

    public string Expression => expression;

    /// <summary>The path, where it needs no engine.</summary>
    public PlainPath? Plain { get; } = PlainPath.Of(expression);

    /// <summary>What the path finds from <paramref name="element"/>.</summary>
    public IEnumerable<Base> Find(Base element) => Plain?.Walk(element) ?? Evaluate(element);

    /// <summary>The same, always by the FHIRPath engine.</summary>
    public IEnumerable<Base> Evaluate(Base element) => compiled.Value(element.ToPocoNode(), Context).Select(n => n.Poco);

    private static PocoNode? Resolve(string reference) => ReferenceText.TypeOf(reference) is { } type
        ? Resolved.GetOrAdd(type, static type => ((Resource)Activator.CreateInstance(ModelInfo.GetTypeForFhirType(type)!)!).ToPocoNode())
        : null;

    [GeneratedRegex(@"^\(?(?<type>[A-Z]\w+)\.(?<element>[a-z]\w*)")]
    private static partial Regex Beginning();

    // Paths that answer yes or no give an answer also where the element is absent.
    [GeneratedRegex(@"\.exists\(\)|!=")]
    private static partial Regex Answers();

    // Parts of composites begin with an element, not with a type.
    [GeneratedRegex(@"^[a-z]\w*")]
    private static partial Regex Within();
}
