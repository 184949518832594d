using System.Text.Json;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>One resource of a mapped session.</summary>
/// <param name="Index">0-based place in the transaction, by which a server names it.</param>
/// <param name="Type">Resource type.</param>
/// <param name="Id">Our own id.</param>
/// <param name="FullUrl">What the other resources refer to it by.</param>
/// <param name="Resource">The resource. What is sent without being written anew keeps every character.</param>
public sealed record SessionEntry(int Index, string Type, string Id, string FullUrl, JsonElement Resource)
{
    /// <summary>System and value it is found again by; null for a Provenance, which R4 gives no identifier.</summary>
    public (string System, string Value)? Identifier { get; } = FirstIdentifier(Resource);

    /// <summary>Tag it is found by where there is no identifier; null if there is none.</summary>
    public (string System, string Code)? Tag { get; } = FirstTag(Resource);

    /// <summary>
    /// What it is about in a person's words, from its identifier: <c>trial card-turning left</c>. Holds no patient data.
    /// </summary>
    public string Label
    {
        get
        {
            if (Identifier is not { } identifier)
            {
                return Type;
            }

            var kind = identifier.System[(identifier.System.LastIndexOf('/') + 1)..];
            // A shared device is named by site or version, everything else below site/session.
            return string.Join(' ', identifier.Value.Split('/').Skip(2).Prepend(kind));
        }
    }

    /// <summary>Condition under which creating it again makes no second one; null if there is nothing to find it by.</summary>
    public string? Condition =>
        Identifier is { } identifier ? $"identifier={FhirSearch.Token(identifier.System, identifier.Value)}"
        : Tag is { } tag ? $"_tag={FhirSearch.Token(tag.System, tag.Code)}"
        : null;

    private static (string, string)? FirstIdentifier(JsonElement resource)
    {
        var identifier = resource.Identifiers().FirstOrDefault();
        return identifier.Text("system") is { } system && identifier.Text("value") is { } value ? (system, value) : null;
    }

    private static (string, string)? FirstTag(JsonElement resource)
    {
        // A Provenance has one tag for the session and one for the revision; the latter is the one it alone carries.
        var tags = resource.Object("meta").Objects("tag").ToList();
        var tag = tags.Where(t => t.Text("system") == IdentifierSystems.Provenance).Concat(tags).FirstOrDefault();
        return tag.Text("system") is { } system && tag.Text("code") is { } code ? (system, code) : null;
    }
}
