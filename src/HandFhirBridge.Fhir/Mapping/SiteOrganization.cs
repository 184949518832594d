using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The clinic behind a site id, as records know it.</summary>
/// <param name="Identifier">Identifier of the Organization.</param>
/// <param name="Name">Name as it shall be shown; null to show none.</param>
public sealed record SiteOrganization(BusinessIdentifier Identifier, string? Name);
