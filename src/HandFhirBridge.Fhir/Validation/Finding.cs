using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>Turns what a check found at a place into a problem that names the resource and the value.</summary>
/// <param name="root">What is validated: a bundle, or one resource.</param>
internal sealed class Finding(Resource root)
{
    private const string EntryPrefix = "Bundle.entry[";
    private const int LongestShown = 80;

    /// <summary>An occurrence of a kind.</summary>
    /// <param name="kind">What is wrong.</param>
    /// <param name="location">FHIRPath from the root.</param>
    /// <param name="sentence">What was found, as a sentence.</param>
    /// <param name="severity">Severity where it differs from the kind's.</param>
    internal Problem At(ProblemKind kind, string location, string sentence, Severity? severity = null)
    {
        var found = ValueAt(location);
        var message = $"{Subject(location)}: {sentence}{(found is null || sentence.Contains(found, StringComparison.Ordinal) ? "" : $" Found '{found}'.")}";
        return kind.At(location, message, found) with { Severity = severity ?? kind.Severity };
    }

    private string Subject(string location) => ResourceName.Of(EntryAt(location) ?? root);

    private Resource? EntryAt(string location)
    {
        if (root is not Bundle bundle || !location.StartsWith(EntryPrefix, StringComparison.Ordinal))
        {
            return null;
        }

        var end = location.IndexOf(']', StringComparison.Ordinal);
        return int.TryParse(location.AsSpan(EntryPrefix.Length, end - EntryPrefix.Length), out var at) && at < bundle.Entry.Count ? bundle.Entry[at].Resource : null;
    }

    private string? ValueAt(string location)
    {
        try
        {
            return root.Select(location).OfType<PrimitiveType>().FirstOrDefault()?.ToString() is { Length: > 0 and <= LongestShown } text ? text : null;
        }
        catch (Exception problem) when (problem is FormatException or InvalidOperationException or ArgumentException)
        {
            // The value is a courtesy; a place that cannot be evaluated still is the place.
            return null;
        }
    }
}
