using Duende.IdentityModel;
using Duende.IdentityModel.Client;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Tokens of the OAuth 2.0 client credentials grant, cached until shortly before they expire.</summary>
/// <param name="http">Client for the token endpoint.</param>
/// <param name="options">Sign-in of the target.</param>
/// <param name="endpoint">Finds the token endpoint.</param>
/// <param name="assertions">Signs assertions; null sends the client secret instead.</param>
/// <param name="clock">Gives the time.</param>
public sealed class ClientCredentialsTokens(
    HttpClient http,
    SignInOptions options,
    Func<CancellationToken, Task<Uri>> endpoint,
    ClientAssertions? assertions,
    TimeProvider clock) : IAccessTokens, IDisposable
{
    // A server that gives no lifetime is asked anew after five minutes, the longest SMART recommends for a token.
    private static readonly TimeSpan AssumedLifetime = TimeSpan.FromMinutes(5);
    private readonly SemaphoreSlim gate = new(1, 1);
    private AccessToken? current;

    /// <inheritdoc/>
    public async ValueTask<AccessToken> GetAsync(CancellationToken cancellation)
    {
        if (current is { } held && held.RefreshAt > clock.GetUtcNow())
        {
            return held;
        }

        await gate.WaitAsync(cancellation);
        try
        {
            if (current is null || current.RefreshAt <= clock.GetUtcNow())
            {
                current = await FetchAsync(cancellation);
            }

            return current;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <inheritdoc/>
    public void Discard(AccessToken refused) => Interlocked.CompareExchange(ref current, null, refused);

    /// <inheritdoc/>
    public void Dispose() => gate.Dispose();

    private async Task<AccessToken> FetchAsync(CancellationToken cancellation)
    {
        var address = await endpoint(cancellation);
        using var request = new ClientCredentialsTokenRequest
        {
            Address = address.OriginalString,
            ClientId = options.ClientId ?? "",
            Scope = options.Scope,
            ClientCredentialStyle = assertions is null ? ClientCredentialStyle.AuthorizationHeader : ClientCredentialStyle.PostBody,
        };
        if (assertions is null)
        {
            request.ClientSecret = SecretReference.Read(options.Secret ?? "");
        }
        else
        {
            request.ClientAssertion = new ClientAssertion
            {
                Type = OidcConstants.ClientAssertionTypes.JwtBearer,
                Value = assertions.Create(options.ClientId ?? "", address),
            };
        }

        var asked = clock.GetUtcNow();
        var answer = await http.RequestClientCredentialsTokenAsync(request, cancellation);
        if (answer.IsError || string.IsNullOrEmpty(answer.AccessToken))
        {
            throw new SignInException(
                $"The token endpoint {address.Host} refused: {TokenFault.Of(answer)}. Check client id, {(assertions is null ? "secret" : "key and its registration")}, scope and the clock.",
                answer.Exception ?? new HttpRequestException($"HTTP {(int)answer.HttpStatusCode}"));
        }

        if (IsWithoutScope(answer))
        {
            throw new SignInException(
                $"The token endpoint {address.Host} gave a token with none of the scopes asked for ({options.Scope}). Have them granted to the client, or set Scope to those that are.");
        }

        var lifetime = answer.ExpiresIn > 0 ? TimeSpan.FromSeconds(answer.ExpiresIn) : AssumedLifetime;
        // A tenth of the life, at most half a minute, before the end: a request under way must not outlive its token.
        return new(answer.AccessToken, asked + lifetime - TimeSpan.FromSeconds(Math.Min(30, lifetime.TotalSeconds / 10)));
    }

    // SMART Backend Services requires the scopes in the answer; without it (RFC 6749 section 5.1) silence means those asked for.
    private bool IsWithoutScope(TokenResponse answer) =>
        !string.IsNullOrWhiteSpace(options.Scope) && (answer.Scope is null ? assertions is not null : string.IsNullOrWhiteSpace(answer.Scope));
}
