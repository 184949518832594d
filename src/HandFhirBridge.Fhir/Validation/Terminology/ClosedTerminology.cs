using System.Net;
using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;
using Hl7.Fhir.Specification.Terminology;

namespace HandFhirBridge.Fhir.Validation.Terminology;

/// <summary>Answers whether a code is in a value set from the listed value sets in hand, and from nothing else: no network, no guess.</summary>
internal sealed class ClosedTerminology(ClosedValueSets valueSets) : ICodeValidationTerminologyService
{
    /// <inheritdoc/>
    /// <exception cref="FhirOperationException">The value set is not in hand or not listed; the validator turns this into an error.</exception>
    public Task<Parameters> ValueSetValidateCode(Parameters parameters, string? id = null, bool useGet = false)
    {
        var canonical = parameters.GetSingleValue<FhirUri>("url")?.Value ?? string.Empty;
        var valueSet = valueSets.Find(canonical)
            ?? throw new FhirOperationException($"Value set {canonical} is not in hand code by code, so no code can be checked against it.", HttpStatusCode.NotFound);
        return System.Threading.Tasks.Task.FromResult(Answer(parameters, canonical, valueSet));
    }

    /// <inheritdoc/>
    /// <exception cref="FhirOperationException">Always: no rule of the profiles asks for it.</exception>
    public Task<Parameters> Subsumes(Parameters parameters, string? id = null, bool useGet = false) =>
        throw new FhirOperationException("Subsumption is not answered here.", HttpStatusCode.NotImplemented);

    private static Parameters Answer(Parameters parameters, string canonical, ClosedValueSet valueSet)
    {
        var codings = Codings(parameters).ToList();
        var found = codings.FirstOrDefault(coding => IsIn(valueSet, coding));
        return found is null
            ? Result(false, $"{string.Join(", ", codings.Select(Written))} is not in value set {canonical}.")
            : Result(true, WrongDisplay(valueSet, found));
    }

    private static List<Coding> Codings(Parameters parameters)
    {
        if (parameters.GetSingleValue<CodeableConcept>("codeableConcept") is { } concept)
        {
            return concept.Coding;
        }

        var coding = parameters.GetSingleValue<Coding>("coding")
            ?? new Coding(parameters.GetSingleValue<FhirUri>("system")?.Value, parameters.GetSingleValue<Code>("code")?.Value);
        return [coding];
    }

    private static bool IsIn(ClosedValueSet valueSet, Coding coding) =>
        coding.System is null ? coding.Code is { } code && valueSet.ContainsCode(code) : valueSet.Contains(coding.System, coding.Code);

    private static string? WrongDisplay(ClosedValueSet valueSet, Coding coding) =>
        coding.Display is { } written && valueSet.DisplayOf(coding.System, coding.Code) is { } right && written != right
            ? $"The text '{written}' differs from '{right}', the text of code '{coding.Code}' in the value set."
            : null;

    private static string Written(Coding coding) =>
        coding.System is null ? $"'{coding.Code}'" : $"'{coding.Code}' of {coding.System}";

    private static Parameters Result(bool isIn, string? message)
    {
        var result = new Parameters();
        result.Add("result", new FhirBoolean(isIn));
        if (message is not null)
        {
            result.Add("message", new FhirString(message));
        }

        return result;
    }
}
