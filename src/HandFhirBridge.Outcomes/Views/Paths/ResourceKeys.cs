using Hl7.Fhir.Model;
using Hl7.Fhir.Rest;

namespace HandFhirBridge.Outcomes.Views.Paths;

/// <summary>Keys by which rows of different views are joined: resource type and id, so that a key is good among views of any type of one site.</summary>
internal static class ResourceKeys
{
    /// <summary>Key of a resource; null without an id.</summary>
    public static string? Of(Base element) => element is Resource { Id: { Length: > 0 } id } resource ? $"{resource.TypeName}/{id}" : null;

    /// <summary>Key of the resource a reference points at; null for a contained resource, a <c>urn:uuid</c>, an identifier alone, or another type than asked for.</summary>
    /// <param name="element">A Reference.</param>
    /// <param name="type">Resource type asked for; null for any.</param>
    public static string? OfReference(Base element, string? type)
    {
        if (element is not ResourceReference { Reference: { Length: > 0 } text } || text[0] == '#' || text.StartsWith("urn:", StringComparison.Ordinal))
        {
            return null;
        }

        var identity = new ResourceIdentity(text);
        return identity.ResourceType is { Length: > 0 } found && identity.Id is { Length: > 0 } id && (type is null || type == found)
            ? $"{found}/{id}"
            : null;
    }
}
