using System.Collections.Frozen;
using Hl7.FhirPath.Expressions;

namespace HandFhirBridge.Outcomes.Views.Paths.Direct;

/// <summary>
/// An expression in two: the beginning, followed directly, and the rest, which the SDK evaluates on what the beginning gave. All that
/// FHIRPath computes stays with the SDK.
/// </summary>
/// <param name="Beginning">Direct path.</param>
/// <param name="Rest">Expression with the beginning's elements as its focus; null if there is none.</param>
internal sealed record DirectSplit(DirectPath Beginning, Expression? Rest)
{
    // Functions of their focus and of fixed arguments alone, so that it does not matter where the focus is from; of nothing they make nothing.
    private static readonly FrozenSet<string> OfFocus =
        new[] { "matches", "join", "distinct", "lowBoundary", "highBoundary", "startsWith", "last", "single" }.ToFrozenSet();

    /// <summary>Splits; null if not even a beginning can be followed directly.</summary>
    public static DirectSplit? Of(Expression expression, DirectCompiler compiler)
    {
        if (compiler.Path(expression) is { } whole)
        {
            return whole is DirectPath.Here ? null : new(whole, null);
        }

        return expression is FunctionCallExpression { Focus: { } focus } call && OfFocus.Contains(call.FunctionName) && call.Arguments.All(a => a is ConstantExpression)
            && Of(focus, compiler) is { } split
                ? split with { Rest = new FunctionCallExpression(split.Rest ?? AxisExpression.That, call.FunctionName, call.ExpressionType, [.. call.Arguments]) }
                : null;
    }
}
