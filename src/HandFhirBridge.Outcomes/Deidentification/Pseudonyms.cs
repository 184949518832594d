using System.Collections.Frozen;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Pseudonyms in place of keys, clinics and sessions; the same for a resource and for the rows made of it.</summary>
/// <param name="key">Makes them.</param>
internal sealed class Pseudonyms(ProjectKey key)
{
    private static readonly FrozenSet<string> Shipped = NormLibrary.Embedded.Sets.Select(s => s.Id).ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Of a resource; ids are good within one source only.</summary>
    public string Resource(string source, string type, string id) => key.Pseudonym(type, source, id);

    /// <summary>Of a clinic, the same from whichever source.</summary>
    public string Site(string site) => key.Pseudonym("site", site);

    /// <summary>Of a session, whose id is unique in its clinic.</summary>
    public string Session(string site, string session) => key.Pseudonym("session", site, session);

    /// <summary>Of a source.</summary>
    public string Source(string source) => key.Pseudonym("source", source);

    /// <summary>A norm set that comes with the product by its id; one that a site typed by a pseudonym, as its id may name the site.</summary>
    public string NormSet(string id) => Shipped.Contains(id) ? id : key.Pseudonym("norm-set", id);

    /// <summary>A short version number as it is; the version of a site's table by a pseudonym, as it follows from the table.</summary>
    public string NormVersion(string version) => version.Length <= 3 && version.All(char.IsAsciiDigit) ? version : key.Pseudonym("norm-version", version);

    /// <summary>Key of a resource as rows have it (<c>Patient/p1</c>): the pseudonym that the resource has, in the same form.</summary>
    public string Key(string source, string reference) => Reference(source, reference) ?? key.Pseudonym("key", source, reference);

    /// <summary>Days that a patient's dates are moved back by.</summary>
    public int DaysBack(string source, string patient) => key.DaysBack(source, patient);

    /// <summary>An identifier of ours: clinic and session as pseudonyms, task and hand as they are; null if it is not made as ours are.</summary>
    public string? Identifier(string system, string value)
    {
        var parts = value.Split('/');
        return system is IdentifierSystems.Report or IdentifierSystems.Dominance or IdentifierSystems.Panel or IdentifierSystems.Total or IdentifierSystems.Trial or IdentifierSystems.Attempt
            && parts.Length >= 2 && parts.Skip(2).All(HarmlessText.IsPart)
            ? string.Join('/', [Site(parts[0]), Session(parts[0], parts[1]), .. parts.Skip(2)])
            : null;
    }

    /// <summary>A literal reference without its server, with a pseudonym for the id; null if it is none.</summary>
    public string? Reference(string source, string reference) => Target(reference) is var (type, id) ? $"{type}/{Resource(source, type, id)}" : null;

    /// <summary>Type and id a literal reference ends with; null if it is none.</summary>
    public static (string Type, string Id)? Target(string reference)
    {
        var parts = reference.Split("/_history/")[0].Split('/');
        return parts.Length >= 2 && parts[^1].Length > 0 && ModelInfo.IsKnownResource(parts[^2]) ? (parts[^2], parts[^1]) : null;
    }
}
