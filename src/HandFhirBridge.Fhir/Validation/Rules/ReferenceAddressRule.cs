using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>Every reference is an address that can be taken apart. Comes before the FHIR validator, which throws at one that cannot.</summary>
internal sealed class ReferenceAddressRule : IResourceRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding)
    {
        List<Problem> problems = [];
        ElementWalk<ResourceReference>.Over(root, (reference, walk) =>
        {
            if (reference.Reference is { } address && !Uri.TryCreate(address, UriKind.RelativeOrAbsolute, out _))
            {
                problems.Add(finding.At(ValidationProblems.UnreadableReference, walk.Location + ".reference", $"'{address}' is no address."));
            }
        });
        return problems;
    }
}
