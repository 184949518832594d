namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Gives bearer tokens for one target.</summary>
public interface IAccessTokens
{
    /// <summary>A token that should still be good.</summary>
    /// <exception cref="SignInException">None can be had.</exception>
    ValueTask<AccessToken> GetAsync(CancellationToken cancellation);

    /// <summary>Says that the target refused <paramref name="refused"/>; the next call fetches another, unless one has already come in its place.</summary>
    void Discard(AccessToken refused);
}
