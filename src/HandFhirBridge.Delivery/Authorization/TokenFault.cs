using Duende.IdentityModel;
using Duende.IdentityModel.Client;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>What a token endpoint said when it gave no token.</summary>
public static class TokenFault
{
    /// <summary>Its error code (RFC 6749 section 5.2), else the status of the answer, with its explanation where it gives one.</summary>
    /// <remarks>The package names the status alone where the answer is no 400, though the code stands in it.</remarks>
    public static string Of(TokenResponse answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var error = answer.TryGet(OidcConstants.TokenResponse.Error) ?? answer.Error ?? "no token in the answer";
        return answer.ErrorDescription is { } why ? $"{error} ({why})" : error;
    }
}
