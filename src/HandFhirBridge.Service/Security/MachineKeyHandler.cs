using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace HandFhirBridge.Service.Security;

/// <summary>Signs in callers whose bearer token is a machine key.</summary>
/// <param name="options">Scheme options.</param>
/// <param name="logger">Logger factory.</param>
/// <param name="encoder">URL encoder.</param>
/// <param name="keys">The key file.</param>
/// <param name="own">Keys of this program's own parts.</param>
public sealed class MachineKeyHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, MachineKeyFile keys, IEnumerable<MachineKey> own)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    /// <summary>Name of the scheme.</summary>
    public const string SchemeName = "machine-key";

    /// <inheritdoc/>
    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        const string bearer = "Bearer ";
        if (!header.StartsWith(bearer + MachineKey.Prefix, StringComparison.Ordinal))
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        var shown = header[bearer.Length..];
        var key = own.FirstOrDefault(k => k.Matches(shown)) ?? keys.Read().FirstOrDefault(k => k.Matches(shown));
        return Task.FromResult(key is null
            ? AuthenticateResult.Fail("The key is not in the key file.")
            : AuthenticateResult.Success(new AuthenticationTicket(Principal(key), SchemeName)));
    }

    /// <inheritdoc/>
    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.WWWAuthenticate = "Bearer";
        return Task.CompletedTask;
    }

    private static ClaimsPrincipal Principal(MachineKey key) => new(new ClaimsIdentity(
        [new Claim("sub", key.Name), new Claim("scope", string.Join(' ', key.Scopes))], SchemeName, "sub", null));
}
