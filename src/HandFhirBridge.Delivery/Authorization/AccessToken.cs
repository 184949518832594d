namespace HandFhirBridge.Delivery.Authorization;

/// <summary>A bearer token.</summary>
/// <param name="Value">The token.</param>
/// <param name="RefreshAt">From then on a new one is fetched before use; <see cref="DateTimeOffset.MaxValue"/> if it is not ours to renew.</param>
public sealed record AccessToken(string Value, DateTimeOffset RefreshAt);
