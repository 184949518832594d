using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;
using Hl7.Fhir.Validation;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>Turns what the parser and the checks of plain values report into problems.</summary>
internal static class CodedFaults
{
    /// <summary>A fault as a problem.</summary>
    /// <param name="fault">As reported.</param>
    /// <param name="finding">Makes problems out of places.</param>
    /// <param name="root">What was read.</param>
    internal static Problem ToProblem(CodedException fault, Finding finding, Resource root)
    {
        var (location, message) = fault is ExtendedCodedException placed
            ? (placed.InstancePath ?? root.TypeName, placed.BaseErrorMessage)
            : (root.TypeName, fault.Message);
        return finding.At(KindOf(fault), location, message);
    }

    private static ProblemKind KindOf(CodedException fault) => fault.ErrorCode switch
    {
        CodedValidationException.UNKNOWN_ELEMENT_CODE => ValidationProblems.UnknownElement,
        CodedValidationException.MANDATORY_ELEMENT_MUST_BE_PRESENT_CODE
            or CodedValidationException.INCORRECT_CARDINALITY_MIN_CODE
            or CodedValidationException.INCORRECT_CARDINALITY_MAX_CODE => ValidationProblems.WrongCount,
        CodedValidationException.CHOICE_TYPE_NOT_ALLOWED_CODE => ValidationProblems.WrongType,
        CodedValidationException.INVALID_CODED_VALUE_CODE => ValidationProblems.CodeNotInValueSet,
        CodedValidationException.ELEMENT_CANNOT_BE_EMPTY_CODE => ValidationProblems.EmptyElement,
        _ => ValidationProblems.InvalidValue,
    };
}
