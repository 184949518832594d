using System.Globalization;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Utility;
using Hl7.Fhir.Validation;

namespace HandFhirBridge.Record.Http;

/// <summary>What the SDK finds wrong, as issues of an OperationOutcome.</summary>
internal static class Faults
{
    // SDK code of a value that is not of its element's type.
    private const string WrongLiteral = "PVAL123";

    // SDK code of white space at an end of an attribute. R4 datatypes.html#string: "Leading and Trailing whitespace is allowed, but SHOULD be
    // removed when using the XML format"; a published example has it.
    private const string WhiteSpace = "XML126";

    /// <param name="faults">What was found.</param>
    /// <param name="resource">Where it was found; null if not even its type is known.</param>
    /// <param name="largeDecimals">Whether a decimal beyond .NET's range is let through.</param>
    public static IReadOnlyList<OperationOutcome.IssueComponent> Of(IEnumerable<CodedException> faults, Resource? resource, bool largeDecimals) =>
        [.. faults.Where(f => f.ErrorCode != WhiteSpace && !(largeDecimals && IsLargeDecimal(f))).Select(f => Issue(f, resource?.TypeName ?? "Resource"))];

    // A decimal of FHIR may be larger than one of .NET. It is stored in the characters it came in, so nothing is lost.
    private static bool IsLargeDecimal(CodedException fault) =>
        fault is CodedValidationException { ErrorCode: WrongLiteral, BaseErrorMessage: var message }
        && message.EndsWith("not the right type of literal for a decimal.", StringComparison.Ordinal)
        && message.Split('\'') is [_, var number, _] && double.TryParse(number, CultureInfo.InvariantCulture, out _);

    private static OperationOutcome.IssueComponent Issue(CodedException fault, string type)
    {
        var extended = fault as CodedValidationException;
        var path = (extended?.InstancePath ?? (fault as FhirJsonException)?.InstancePath ?? (fault as FhirXmlException)?.InstancePath)?.Replace("$this", type, StringComparison.Ordinal);
        return new()
        {
            Severity = OperationOutcome.IssueSeverity.Error,
            Code = extended?.IssueType ?? OperationOutcome.IssueType.Structure,
            Details = new() { Text = fault.Message.Replace("$this", type, StringComparison.Ordinal) },
            Expression = path is null ? [] : [path],
        };
    }
}
