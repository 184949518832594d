using System.Text;
using Hl7.Fhir.Introspection;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>
/// Where an issue of the FHIR validator is, as a FHIRPath. The validator numbers every step; here only steps of lists
/// keep their number, so that the path reads as people write it and is the same as that of the other rules.
/// </summary>
internal static class IssueLocation
{
    /// <summary>FHIRPath of an issue.</summary>
    /// <param name="issue">The issue.</param>
    /// <param name="root">What was validated.</param>
    internal static string Of(OperationOutcome.IssueComponent issue, Resource root)
    {
        var written = issue.Expression.FirstOrDefault() ?? string.Empty;
        var steps = written.Split('.');
        var path = new StringBuilder(steps[0]);
        Base? at = root;
        foreach (var step in steps.Skip(1))
        {
            var (name, number) = Parse(step);
            var isList = at is null || IsList(at, name);
            path.Append('.').Append(isList ? step : name);
            at = at is null ? null : Next(at, name, number);
        }

        return path.ToString();
    }

    private static (string Name, int Number) Parse(string step)
    {
        var bracket = step.IndexOf('[', StringComparison.Ordinal);
        return bracket > 0 && int.TryParse(step.AsSpan(bracket + 1, step.Length - bracket - 2), out var number) ? (step[..bracket], number) : (step, 0);
    }

    private static bool IsList(Base at, string name) =>
        ModelInfo.ModelInspector.FindOrImportClassMapping(at)?.FindMappedElementByName(name)?.IsCollection ?? true;

    private static Base? Next(Base at, string name, int number) => at.TryGetValue(name, out var value)
        ? value switch
        {
            Base single => single,
            System.Collections.IEnumerable list => list.OfType<Base>().ElementAtOrDefault(number),
            _ => null,
        }
        : null;
}
