using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Introspection;
using Hl7.Fhir.Model;
using Hl7.Fhir.Validation;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>Values have the form of their type (dates that exist, ids of the right alphabet, well-formed narrative), which the FHIR validator leaves to the parser.</summary>
internal sealed class PrimitiveRule : IResourceRule
{
    // Asked for when the validator is made, which is beside the reading of the first document, and not by the first verdict, which waits for it.
    private readonly ModelInspector _types = ModelInfo.ModelInspector;

    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding) =>
        root.Validate(_types).Select(fault => CodedFaults.ToProblem(fault, finding, root));
}
