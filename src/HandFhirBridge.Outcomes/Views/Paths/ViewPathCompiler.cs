using System.Collections.Frozen;
using System.Text.RegularExpressions;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths.Direct;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;
using Hl7.FhirPath.Expressions;
using Expression = Hl7.FhirPath.Expressions.Expression;

namespace HandFhirBridge.Outcomes.Views.Paths;

/// <summary>FHIRPath of the SDK with what SQL on FHIR v2 adds to it: <c>getResourceKey</c>, <c>getReferenceKey</c>, <c>%rowIndex</c>, constants.</summary>
/// <param name="constants">The view's constants.</param>
internal sealed partial class ViewPathCompiler(IReadOnlyDictionary<string, PrimitiveType> constants)
{
    public const string RowIndex = "rowIndex";

    private static readonly SymbolTable Symbols = CreateSymbols();
    private static readonly FhirPathCompiler Compiler = new(Symbols);

    // FHIRPath, environment variables; FHIR R4, fhirpath.html#variables. %sct, %loinc, %vs-… and %ext-… are there too.
    private static readonly FrozenSet<string> Known = new[] { RowIndex, "context", "resource", "rootResource", "ucum", "sct", "loinc" }.ToFrozenSet();

    private readonly FrozenSet<string> names = constants.Keys.Concat(Known).ToFrozenSet();

    private readonly DirectCompiler direct = new(constants);

    /// <summary>True once an expression asked for the row's index, which is then worth keeping.</summary>
    public bool UsesRowIndex { get; private set; }

    /// <summary>An expression whose values are wanted.</summary>
    public ViewExpression Values(ViewPath path)
    {
        var parsed = Parse(path);
        return DirectSplit.Of(parsed, direct) is { } split
            ? new(path, split.Rest is null ? null : Compiler.Compile(split.Rest), split.Beginning)
            : Nodes(path, parsed);
    }

    /// <summary>An expression from whose elements paths go on.</summary>
    public ViewExpression Nodes(ViewPath path) => Nodes(path, Parse(path));

    private static ViewExpression Nodes(ViewPath path, Expression parsed) => new(path, Compiler.Compile(parsed), null);

    private Expression Parse(ViewPath path)
    {
        try
        {
            var parsed = Compiler.Parse(TypeArgument().Replace(path.Expression, "getReferenceKey('${type}')"));
            var variables = new VariableVisitor();
            parsed.Accept(variables);
            if (variables.Referred.FirstOrDefault(name => !IsKnown(name) && !variables.Defined.Contains(name)) is { } unknown)
            {
                throw new ViewException(ViewProblems.UnknownConstant.At(
                    path.Location, $"The expression \"{path.Expression}\" refers to %{unknown}, which the view does not define.", unknown));
            }

            UsesRowIndex |= variables.Referred.Contains(RowIndex);
            _ = Compiler.Compile(parsed); // finds unknown functions, in what is followed directly as well
            return parsed;
        }
        catch (Exception wrong) when (wrong is FormatException or ArgumentException or InvalidOperationException)
        {
            throw new ViewException(ViewProblems.InvalidPath.At(
                path.Location, $"The expression \"{path.Expression}\" is not FHIRPath this view runner knows: {wrong.Message}", path.Expression), wrong);
        }
    }

    private bool IsKnown(string name) =>
        names.Contains(name) || name.StartsWith("vs-", StringComparison.Ordinal) || name.StartsWith("ext-", StringComparison.Ordinal);

    private static SymbolTable CreateSymbols()
    {
        var standard = new SymbolTable().AddStandardFP().AddFhirExtensions();
        var symbols = new SymbolTable(standard);
        symbols.Add("getResourceKey", (PocoNode focus) => ResourceKeys.Of(focus.Poco), doNullProp: true);
        symbols.Add("getReferenceKey", (PocoNode focus) => ResourceKeys.OfReference(focus.Poco, type: null), doNullProp: true);
        symbols.Add("getReferenceKey", (PocoNode focus, string type) => ResourceKeys.OfReference(focus.Poco, type), doNullProp: true);
        Boundaries.AddTo(symbols, standard);
        return symbols;
    }

    // The SDK knows type specifiers as arguments of its own functions only; of others it takes them for the path of an element.
    [GeneratedRegex(@"getReferenceKey\(\s*(?:FHIR\s*\.\s*)?(?<type>[A-Za-z]+)\s*\)")]
    private static partial Regex TypeArgument();
}
