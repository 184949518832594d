using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>A reference by <c>urn:uuid:</c> means an entry of the same bundle, and that entry is there.</summary>
internal sealed class BundleReferenceRule : IResourceRule
{
    private const string Internal = "urn:uuid:";

    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding)
    {
        var addresses = root is Bundle bundle ? bundle.Entry.Select(entry => entry.FullUrl).ToHashSet(StringComparer.Ordinal) : [];
        List<Problem> problems = [];
        ElementWalk<ResourceReference>.Over(root, (reference, walk) =>
        {
            if (root is Bundle && reference.Reference is { } target && target.StartsWith(Internal, StringComparison.Ordinal) && !addresses.Contains(target))
            {
                problems.Add(finding.At(
                    ValidationProblems.TargetNotInBundle, walk.Location + ".reference", $"No entry of the bundle has the address '{target}'."));
            }
        });
        return problems;
    }
}
