using System.Net;
using System.Net.Http.Headers;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Puts a bearer token on each request and, when the target answers 401, fetches one new token and asks once more.</summary>
/// <param name="tokens">Gives tokens.</param>
public sealed class SignInHandler(IAccessTokens tokens) : DelegatingHandler
{
    /// <inheritdoc/>
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        var token = await tokens.GetAsync(cancellationToken);
        var answer = await SendAsync(request, token, cancellationToken);
        if (answer.StatusCode != HttpStatusCode.Unauthorized)
        {
            return answer;
        }

        tokens.Discard(token);
        var renewed = await tokens.GetAsync(cancellationToken);
        if (renewed.Value == token.Value)
        {
            return answer;
        }

        answer.Dispose();
        return await SendAsync(request, renewed, cancellationToken);
    }

    private Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, AccessToken token, CancellationToken cancellation)
    {
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token.Value);
        return base.SendAsync(request, cancellation);
    }
}
