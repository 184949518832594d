using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>
/// Every entry has an address of its own and a resource, and the resource claims a profile of this project: a resource
/// that claims none is checked against base R4 alone, which asks far less.
/// </summary>
internal sealed class EntryRule : IResourceRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding)
    {
        if (root is not Bundle bundle)
        {
            yield break;
        }

        HashSet<string> addresses = new(StringComparer.Ordinal);
        for (var at = 0; at < bundle.Entry.Count; at++)
        {
            foreach (var problem in CheckEntry(bundle.Entry[at], $"Bundle.entry[{at}]", addresses, finding))
            {
                yield return problem;
            }
        }
    }

    private static IEnumerable<Problem> CheckEntry(Bundle.EntryComponent entry, string location, HashSet<string> addresses, Finding finding)
    {
        if (entry.FullUrl is { } address && !addresses.Add(address))
        {
            yield return finding.At(ValidationProblems.EntryTwice, location + ".fullUrl", $"The address '{address}' belongs to an entry before it.");
        }

        if (entry.Resource is null)
        {
            yield return finding.At(ValidationProblems.EntryEmpty, location, "The entry has no resource.");
        }
        else if (entry.Resource.Meta?.Profile.Any(IsOurs) != true)
        {
            yield return finding.At(
                ValidationProblems.ProfileNotClaimed, location + ".resource", $"meta.profile names no profile of {Canonicals.Base}.");
        }
    }

    private static bool IsOurs(string? profile) => profile?.StartsWith(Canonicals.Definitions, StringComparison.Ordinal) == true;
}
