namespace HandFhirBridge.Delivery.Authorization;

/// <summary>A bearer token that somebody else renews; read anew at each use.</summary>
/// <param name="reference">Where it lies.</param>
public sealed class FixedToken(string reference) : IAccessTokens
{
    /// <inheritdoc/>
    public ValueTask<AccessToken> GetAsync(CancellationToken cancellation) =>
        ValueTask.FromResult(new AccessToken(SecretReference.Read(reference), DateTimeOffset.MaxValue));

    /// <inheritdoc/>
    public void Discard(AccessToken refused)
    {
        // Nothing is cached: a renewed variable or file is read at the next use anyway.
    }
}
