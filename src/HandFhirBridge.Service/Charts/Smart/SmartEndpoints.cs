namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>Where a user signs in to a FHIR server.</summary>
/// <param name="Authorize">Authorization endpoint.</param>
/// <param name="Token">Token endpoint.</param>
/// <param name="Issuer">Issuer; null if the server does not name it.</param>
public sealed record SmartEndpoints(Uri Authorize, Uri Token, string? Issuer);
