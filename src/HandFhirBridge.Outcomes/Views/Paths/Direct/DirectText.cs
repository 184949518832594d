using System.Globalization;
using System.Text.RegularExpressions;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;
using Hl7.FhirPath.Expressions;

namespace HandFhirBridge.Outcomes.Views.Paths.Direct;

/// <summary>Functions of texts, as FHIRPath 3.0 ("String Manipulation", "Conversion") has them, on directly followed paths.</summary>
internal static class DirectText
{
    private static readonly CompiledExpression Sdk = new FhirPathCompiler(new SymbolTable().AddStandardFP().AddFhirExtensions()).Compile("toString()");

    /// <summary><c>replaceMatches</c>.</summary>
    public static Func<Base, Base?> ReplaceMatches(string pattern, string substitution)
    {
        var regex = new Regex(pattern, RegexOptions.None, TimeSpan.FromSeconds(1));
        return element => new FhirString(regex.Replace(Of(element), substitution));
    }

    /// <summary><c>substring</c>: nothing where it begins outside, to the end where it would go beyond.</summary>
    public static Func<Base, Base?> Substring(int start, int length) => element => Of(element) is var text && start >= 0 && start < text.Length
        ? new FhirString(text.Substring(start, Math.Min(Math.Max(length, 0), text.Length - start)))
        : null;

    /// <summary><c>toString</c>: decimals with their digits; what is no primitive is the SDK's to write.</summary>
    public static Base? ToText(Base element) => element switch
    {
        PrimitiveType { JsonValue: bool flag } => new FhirString(flag ? "true" : "false"),
        PrimitiveType { JsonValue: { } value } => new FhirString(Convert.ToString(value, CultureInfo.InvariantCulture)),
        _ => Sdk([element.ToPocoNode()], new FhirEvaluationContext()).FirstOrDefault()?.Poco,
    };

    private static string Of(Base element) => element is PrimitiveType { JsonValue: string text }
        ? text
        : throw new InvalidOperationException($"A function of texts was called on a {element.TypeName}.");
}
