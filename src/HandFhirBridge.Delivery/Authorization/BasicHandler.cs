using System.Net.Http.Headers;
using System.Text;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Puts user name and password on each request (RFC 7617).</summary>
/// <param name="user">User name; holds no colon.</param>
/// <param name="secret">Where the password lies.</param>
public sealed class BasicHandler(string user, string secret) : DelegatingHandler
{
    /// <inheritdoc/>
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        var pair = Encoding.UTF8.GetBytes($"{user}:{SecretReference.Read(secret)}");
        request.Headers.Authorization = new AuthenticationHeaderValue("Basic", Convert.ToBase64String(pair));
        return base.SendAsync(request, cancellationToken);
    }
}
