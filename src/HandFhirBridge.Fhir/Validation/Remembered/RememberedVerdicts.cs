using Hl7.Fhir.Model;
using IssueComponent = Hl7.Fhir.Model.OperationOutcome.IssueComponent;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// The verdict of the FHIR validator, from memory where it had nothing to say of the same shape before. What is unknown in a
/// bundle is validated in its place; as soon as anything is found, the whole is validated as if nothing were remembered,
/// so that issues, their places and their order are the validator's own. See ADR 0404.
/// </summary>
/// <param name="library">The validator.</param>
/// <param name="clean">What is known from before; grows.</param>
internal sealed class RememberedVerdicts(LibraryValidator library, CleanShapes clean)
{
    /// <summary>What the validator finds.</summary>
    internal IReadOnlyList<IssueComponent> Validate(Resource resource)
    {
        var shapes = SessionShapes.Of(resource);
        if (IsClean(resource, shapes))
        {
            return [];
        }

        var issues = library.Validate(resource);
        if (issues.Count == 0)
        {
            Remember(shapes.Frame);
            Array.ForEach(shapes.Entries, Remember);
        }

        return issues;
    }

    private bool IsClean(Resource resource, SessionShapes shapes)
    {
        if (!IsKnown(shapes.Frame))
        {
            return false;
        }

        int[] unknown = [.. Enumerable.Range(0, shapes.Entries.Length).Where(at => !IsKnown(shapes.Entries[at]))];
        return unknown.Length == 0 || (unknown.Length <= shapes.Entries.Length / 2 && AreClean((Bundle)resource, shapes, unknown));
    }

    private bool AreClean(Bundle bundle, SessionShapes shapes, int[] unknown)
    {
        foreach (var (at, issues) in library.ValidateEntries(bundle, unknown))
        {
            if (issues.Count > 0)
            {
                return false;
            }

            Remember(shapes.Entries[at]);
        }

        return true;
    }

    private bool IsKnown(ShapeKey? shape) => shape is { } key && clean.Contains(key);

    private void Remember(ShapeKey? shape)
    {
        if (shape is { } key)
        {
            clean.Add(key);
        }
    }
}
