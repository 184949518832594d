using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Which clinic a site id stands for.</summary>
/// <param name="sites">Clinic by site id; case counts.</param>
public sealed class SiteDirectory(ImmutableDictionary<string, SiteOrganization> sites)
{
    /// <summary>A directory that knows no site.</summary>
    public static SiteDirectory Empty { get; } = new(ImmutableDictionary<string, SiteOrganization>.Empty);

    /// <summary>The clinic of <paramref name="site"/>. A site that is not listed is named by its id in <see cref="IdentifierSystems.Site"/>, without a name.</summary>
    public SiteOrganization Find(string site) =>
        sites.TryGetValue(site, out var found) ? found : new(new BusinessIdentifier(IdentifierSystems.Site, site), null);
}
