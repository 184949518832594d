using System.Collections.Frozen;
using Hl7.Fhir.Model;
using Hl7.FhirPath.Expressions;
using Expression = Hl7.FhirPath.Expressions.Expression;

namespace HandFhirBridge.Outcomes.Views.Paths.Direct;

/// <summary>Finds what of an expression can be followed directly: elements by name, <c>where</c> with comparisons of texts, <c>ofType</c>, <c>extension</c>, <c>first</c>, <c>exists</c>, <c>empty</c>, keys.</summary>
/// <param name="constants">The view's constants.</param>
internal sealed class DirectCompiler(IReadOnlyDictionary<string, PrimitiveType> constants)
{
    // Types of FHIR that are not names of FHIRPath's own as well, which would be other types of the same spelling.
    private static readonly FrozenSet<string> Types = new[]
    {
        "string", "code", "boolean", "integer", "positiveInt", "unsignedInt", "decimal", "uri", "canonical", "date", "dateTime", "time", "instant",
        "Quantity", "CodeableConcept", "Coding", "Period", "Range", "Ratio", "Reference", "Identifier",
    }.ToFrozenSet();

    // FHIRPath, environment variables; FHIR R4, fhirpath.html#variables.
    private static readonly FrozenDictionary<string, string> Known = new Dictionary<string, string>
    {
        ["ucum"] = "http://unitsofmeasure.org", ["sct"] = "http://snomed.info/sct", ["loinc"] = "http://loinc.org",
    }.ToFrozenDictionary();

    /// <summary>The whole expression as a direct path; null if some part of it is the SDK's.</summary>
    public DirectPath? Path(Expression expression) => expression switch
    {
        AxisExpression { Name: "builtin.that" or "builtin.this" } => new DirectPath.Here(),
        FunctionCallExpression call => Path(call),
        CustomExpression custom => Path(custom.Reduce()),
        _ => null,
    };

    private DirectPath? Path(FunctionCallExpression call)
    {
        if (Condition(call) is { } condition)
        {
            return new DirectPath.Answer(condition);
        }

        if (call.Focus is null || Path(call.Focus) is not { } of || of is DirectPath.Answer)
        {
            return null;
        }

        return (call.FunctionName, call.Arguments.ToList()) switch
        {
            ("builtin.children", [ConstantExpression { Value: string name }]) when char.IsAsciiLetterLower(name[0]) => // others name a type
                new DirectPath.Child(of, name),
            ("where", [var criterion]) when Condition(criterion) is { } holds => new DirectPath.Where(of, holds),
            ("ofType", [ConstantExpression { Value: string type }]) when Types.Contains(type) => new DirectPath.OfType(of, type),
            ("extension", [var url]) when Text(url) is { } text => new DirectPath.Where(new DirectPath.Child(of, "extension"), new DirectCondition.Equal(new DirectPath.Child(new DirectPath.Here(), "url"), text, wanted: true)),
            ("first", []) => new DirectPath.First(of),
            ("getResourceKey", []) => new DirectPath.Key(of, ResourceKeys.Of),
            ("getReferenceKey", []) => new DirectPath.Key(of, element => ResourceKeys.OfReference(element, type: null)),
            ("getReferenceKey", [ConstantExpression { Value: string type }]) => new DirectPath.Key(of, element => ResourceKeys.OfReference(element, type)),
            ("replaceMatches", [ConstantExpression { Value: string pattern }, ConstantExpression { Value: string substitution }]) =>
                new DirectPath.Function(of, DirectText.ReplaceMatches(pattern, substitution)),
            ("substring", [ConstantExpression { Value: int start }, ConstantExpression { Value: int length }]) => new DirectPath.Function(of, DirectText.Substring(start, length)),
            ("toString", []) => new DirectPath.Function(of, DirectText.ToText),
            ("distinct", []) when of is DirectPath.OfType { IsText: true } => new DirectPath.Distinct(of),
            ("join", [ConstantExpression { Value: string separator }]) when of is DirectPath.Distinct or DirectPath.OfType { IsText: true } => new DirectPath.Join(of, separator),
            _ => null,
        };
    }

    private DirectCondition? Condition(Expression expression) => expression switch
    {
        CustomExpression custom => Condition(custom.Reduce()),
        FunctionCallExpression call => Condition(call),
        _ => null,
    };

    private DirectCondition? Condition(FunctionCallExpression call) => (call.FunctionName, call.Arguments.ToList()) switch
    {
        ("exists", []) when Elements(call.Focus) is { } path => new DirectCondition.Exists(path, wanted: true),
        ("empty", []) when Elements(call.Focus) is { } path => new DirectCondition.Exists(path, wanted: false),
        ("exists", [var criterion]) when Elements(call.Focus) is { } path && Condition(criterion) is { } holds => new DirectCondition.Exists(new DirectPath.Where(path, holds), wanted: true),
        ("binary.=", [var left, var right]) => Comparison(left, right, wanted: true),
        ("binary.!=", [var left, var right]) => Comparison(left, right, wanted: false),
        ("binary.in", [var left, var right]) when Text(left) is { } text && Elements(right) is { } path => new DirectCondition.In(text, path),
        ("binary.and", [var left, var right]) when Condition(left) is { } one && Condition(right) is { } other => new DirectCondition.And(one, other),
        ("binary.or", [var left, var right]) when Condition(left) is { } one && Condition(right) is { } other => new DirectCondition.Or(one, other),
        _ => null,
    };

    private DirectCondition.Equal? Comparison(Expression left, Expression right, bool wanted) =>
        Elements(left) is { } path && Value(right) is { } value ? new(path, value, wanted)
        : Elements(right) is { } other && Value(left) is { } of ? new(other, of, wanted)
        : null;

    private DirectPath? Elements(Expression? expression) => expression is not null && Path(expression) is { } path and not DirectPath.Answer ? path : null;

    private object? Value(Expression expression) => expression is ConstantExpression { Value: bool flag } ? flag : Text(expression);

    private string? Text(Expression expression) => expression switch
    {
        CustomExpression custom => Text(custom.Reduce()),
        ConstantExpression { Value: string text } and not IdentifierExpression => text,
        VariableRefExpression variable and not AxisExpression when !constants.ContainsKey(variable.Name) => Known.GetValueOrDefault(variable.Name),
        VariableRefExpression variable and not AxisExpression
            when constants.TryGetValue(variable.Name, out var constant) && constant is FhirString or FhirUri or Code or Id or Canonical or FhirUrl => constant.JsonValue as string,
        _ => null,
    };
}
