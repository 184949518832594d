using Firely.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using Newtonsoft.Json.Linq;

namespace HandFhirBridge.Fhir.Validation.Schemas;

/// <summary>
/// Answers a binding at once where the answer is plain, and leaves every other case to the library's own check, which hands
/// the question to another thread. Plain is: a code that a required value set lists; an extensible binding whose element has
/// the content it needs, since the library asks for such a code and then drops the answer. A verdict can therefore not differ
/// from the library's.
/// </summary>
#pragma warning disable ExperimentalApi // Rewriting compiled schemas is the library's own extension point: see ADR 0402.
internal sealed class ClosedBinding(BindingValidator inner, ClosedValueSet? valueSet) : IValidatable
{
    private readonly IValidatable _inner = inner;
    private readonly BindingValidator.BindingStrength _strength = inner.Strength ?? BindingValidator.BindingStrength.Required;

    /// <inheritdoc/>
    public ResultReport Validate(PocoNode input, ValidationSettings vc, ValidationState state) =>
        IsPlainlyIn(input.Poco) ? ResultReport.SUCCESS : _inner.Validate(input, vc, state);

    /// <inheritdoc/>
    public JToken ToJson() => inner.ToJson();

    private bool IsPlainlyIn(Base poco) => _strength switch
    {
        BindingValidator.BindingStrength.Required => valueSet is not null && IsListed(poco),
        BindingValidator.BindingStrength.Extensible => poco is not CodeableConcept concept || concept.Text is { Length: > 0 } || concept.Coding.Exists(HasCode),
        _ => true,
    };

    private bool IsListed(Base poco) => poco switch
    {
        Coding coding => IsListed(coding),
        CodeableConcept concept => concept.Coding.Exists(IsListed),
        PrimitiveType { TypeName: "code", JsonValue: string code } => valueSet!.ContainsCode(code),
        _ => false,
    };

    private static bool HasCode(Coding coding) => !string.IsNullOrEmpty(coding.Code);

    // A text that differs from the listed one is worth a remark, which the library's check makes.
    private bool IsListed(Coding coding) =>
        valueSet!.Contains(coding.System, coding.Code)
        && (coding.Display is not { } display || (valueSet.DisplayOf(coding.System, coding.Code) ?? display) == display);
}
