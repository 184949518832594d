using System.Security.Cryptography;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Makes the signed statements by which a SMART Backend Services client proves who it is (RFC 7523; SMART App Launch 2.2).</summary>
/// <param name="keys">Signs.</param>
/// <param name="clock">Gives the time.</param>
public sealed class ClientAssertions(SigningKeys keys, TimeProvider clock)
{
    // SMART allows five minutes at most; one less leaves room for a clock of ours that runs fast.
    private static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(4);

    /// <summary>An assertion for one use at one token endpoint.</summary>
    public string Create(string clientId, Uri tokenEndpoint)
    {
        ArgumentNullException.ThrowIfNull(tokenEndpoint);
        var now = clock.GetUtcNow().UtcDateTime;
        var claims = new SecurityTokenDescriptor
        {
            Issuer = clientId,
            Audience = tokenEndpoint.OriginalString,
            IssuedAt = now,
            Expires = now + Lifetime,
            Claims = new Dictionary<string, object>
            {
                [JwtRegisteredClaimNames.Sub] = clientId,
                // Anything unique and unguessable serves; it keeps a copied assertion from being used twice.
                [JwtRegisteredClaimNames.Jti] = Base64UrlEncoder.Encode(RandomNumberGenerator.GetBytes(24)),
            },
            SigningCredentials = keys.Current(),
        };
        return new JsonWebTokenHandler { SetDefaultTimesOnTokenCreation = false }.CreateToken(claims);
    }
}
