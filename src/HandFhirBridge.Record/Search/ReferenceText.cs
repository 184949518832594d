using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>What a literal reference says about its target (R4 references.html#literal).</summary>
internal static class ReferenceText
{
    /// <summary>Resource type the reference points at; null if it does not say.</summary>
    public static string? TypeOf(string reference)
    {
        var parts = Unversioned(reference).Split('/');
        return parts.Length >= 2 && ModelInfo.IsKnownResource(parts[^2]) ? parts[^2] : null;
    }

    /// <summary>The reference without <c>/_history/version</c>: a search asks for the resource, not for a version.</summary>
    public static string Unversioned(string reference) =>
        reference.IndexOf("/_history/", StringComparison.Ordinal) is var at and >= 0 ? reference[..at] : reference;

    /// <summary>The reference relative to <paramref name="baseUrl"/>, where it lies under it.</summary>
    public static string Relative(string reference, string baseUrl) =>
        reference.StartsWith(baseUrl + '/', StringComparison.Ordinal) ? reference[(baseUrl.Length + 1)..] : reference;
}
