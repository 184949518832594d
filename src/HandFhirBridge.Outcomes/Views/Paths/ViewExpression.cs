using System.Text.RegularExpressions;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths.Direct;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;

namespace HandFhirBridge.Outcomes.Views.Paths;

/// <summary>A compiled expression of a view.</summary>
/// <param name="path">As written.</param>
/// <param name="compiled">As the SDK runs it, or what of it follows on the direct beginning and makes nothing of nothing; null if nothing follows.</param>
/// <param name="beginning">What is followed directly; null if nothing is.</param>
internal sealed class ViewExpression(ViewPath path, CompiledExpression? compiled, DirectPath? beginning)
{
    public ViewPath Path => path;

    /// <summary>All it gives; what FHIRPath calls an error is the view's.</summary>
    public IReadOnlyList<Base> Values(PocoNode? focus, FhirEvaluationContext context) => Guarded<List<Base>>(context, () =>
    {
        if (beginning is null)
        {
            return [.. compiled!(Focus(focus), context).Select(node => node.Poco)];
        }

        var found = beginning.Select(focus?.Poco);
        return compiled is null || found.Count == 0 ? found : [.. compiled(found.ConvertAll(element => element.ToPocoNode()), context).Select(node => node.Poco)];
    });

    /// <summary>The same as places in the resource, from which paths go on. The expression has no direct beginning.</summary>
    public List<PocoNode> Nodes(PocoNode? focus, FhirEvaluationContext context) => Guarded<List<PocoNode>>(context, () => [.. compiled!(Focus(focus), context)]);

    private static IEnumerable<PocoNode> Focus(PocoNode? focus) => focus is null ? [] : [focus];

    private T Guarded<T>(FhirEvaluationContext context, Func<T> evaluate)
    {
        try
        {
            return evaluate();
        }
        catch (Exception wrong) when (wrong is InvalidOperationException or ArgumentException or FormatException or InvalidCastException or OverflowException
            or NotSupportedException or RegexMatchTimeoutException)
        {
            throw new ViewException(ViewProblems.InvalidPath.At(
                path.Location, $"The expression \"{path.Expression}\" cannot be evaluated in {Name(context)}.", path.Expression), wrong);
        }
    }

    /// <summary>The resource at hand, for sentences. An id is made by a server and names nobody; without it nobody finds the resource meant.</summary>
    public static string Name(FhirEvaluationContext context) =>
        context.Resource?.Poco is { } resource && ResourceKeys.Of(resource) is { } key ? key : "a resource without id";
}
