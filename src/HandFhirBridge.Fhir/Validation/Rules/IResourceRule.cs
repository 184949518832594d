using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>A rule that the FHIR validator does not check, or not strictly enough.</summary>
internal interface IResourceRule
{
    /// <summary>Everything against the rule.</summary>
    /// <param name="root">A bundle, or one resource.</param>
    /// <param name="finding">Makes problems out of places.</param>
    IEnumerable<Problem> Check(Resource root, Finding finding);
}
