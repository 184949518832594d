using System.Security.Claims;
using System.Text.Encodings.Web;
using System.Text.Json;
using Duende.IdentityModel.Client;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OAuth;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.Options;

namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>
/// SMART App Launch 2.2 by the framework's OAuth handler, which makes and checks state, its cookie and PKCE. Endpoints and client
/// are those of the server that opened the page, kept in the protected state.
/// </summary>
/// <param name="options">Scheme options.</param>
/// <param name="logger">Logger factory.</param>
/// <param name="encoder">URL encoder.</param>
/// <param name="discovery">Knows the servers.</param>
/// <param name="settings">Gives the public address.</param>
internal sealed class SmartHandler(
    IOptionsMonitor<OAuthOptions> options, ILoggerFactory logger, UrlEncoder encoder, SmartDiscovery discovery, BridgeSettings settings)
    : OAuthHandler<OAuthOptions>(options, logger, encoder)
{
    /// <inheritdoc/>
    protected override async Task<HandleRequestResult> HandleRemoteAuthenticateAsync()
    {
        // RFC 9207: an answer that says whom it is from must be from whom was asked.
        var from = Request.Query["iss"].ToString();
        var asked = Options.StateDataFormat.Unprotect(Request.Query["state"])?.Items[SmartItems.Issuer];
        return from.Length > 0 && !string.IsNullOrEmpty(asked) && from != asked
            ? HandleRequestResult.Fail(new SmartRefusedException(ChartProblems.WrongIssuer.At("iss", "The answer names another server than the one that was asked.")))
            : await base.HandleRemoteAuthenticateAsync();
    }

    /// <inheritdoc/>
    protected override string BuildChallengeUrl(AuthenticationProperties properties, string redirectUri)
    {
        var server = Server(properties);
        var parameters = QueryHelpers.ParseQuery(new Uri(base.BuildChallengeUrl(properties, redirectUri)).Query)
            .ToDictionary(p => p.Key, p => (string?)p.Value.ToString());
        parameters["client_id"] = server.ClientId;
        parameters["redirect_uri"] = Redirect(redirectUri);
        parameters["aud"] = server.BaseUrl.TrimEnd('/');
        if (properties.Items[SmartItems.Launch] is { Length: > 0 } launch)
        {
            parameters["launch"] = launch;
        }

        return QueryHelpers.AddQueryString(properties.Items[SmartItems.Authorize]!, parameters);
    }

    /// <inheritdoc/>
    protected override async Task<OAuthTokenResponse> ExchangeCodeAsync(OAuthCodeExchangeContext context)
    {
        var server = Server(context.Properties);
        using var request = new AuthorizationCodeTokenRequest
        {
            Address = context.Properties.Items[SmartItems.Token],
            ClientId = server.ClientId,
            ClientSecret = server.Secret is { } secret ? SecretReference.Read(secret) : null,
            ClientCredentialStyle = server.Secret is null ? ClientCredentialStyle.PostBody : ClientCredentialStyle.AuthorizationHeader,
            Code = context.Code,
            RedirectUri = Redirect(context.RedirectUri),
            CodeVerifier = context.Properties.Items[OAuthConstants.CodeVerifierKey],
        };
        var answer = await Backchannel.RequestAuthorizationCodeTokenAsync(request, Context.RequestAborted);
        return Fault(answer, context.Properties) is { } problem
            ? OAuthTokenResponse.Failed(new SmartRefusedException(problem))
            : OAuthTokenResponse.Success(JsonDocument.Parse(answer.Raw!));
    }

    /// <inheritdoc/>
    protected override Task<AuthenticationTicket> CreateTicketAsync(ClaimsIdentity identity, AuthenticationProperties properties, OAuthTokenResponse tokens)
    {
        var answer = tokens.Response!.RootElement;
        identity.AddClaim(new(SmartItems.Server, properties.Items[SmartItems.Server]!));
        identity.AddClaim(new(SmartItems.Patient, answer.GetProperty("patient").GetString()!));
        if (SmartItems.ReportOf(answer) is { } report)
        {
            identity.AddClaim(new(SmartItems.Report, report));
        }

        SmartItems.Clear(properties);
        // A server that gives no lifetime is taken for the shortest that SMART recommends.
        var seconds = int.TryParse(tokens.ExpiresIn, out var given) && given > 0 ? given : 300;
        properties.ExpiresUtc = TimeProvider.GetUtcNow().AddSeconds(seconds);
        properties.IsPersistent = false;
        return Task.FromResult(new AuthenticationTicket(new ClaimsPrincipal(identity), properties, Scheme.Name));
    }

    private static Problem? Fault(TokenResponse answer, AuthenticationProperties properties)
    {
        if (answer.IsError || string.IsNullOrEmpty(answer.AccessToken))
        {
            return ChartProblems.SignInRefused.At("", $"The record gave no access: {TokenFault.Of(answer)}.");
        }

        // RFC 6749, section 5.1: a server that grants what was asked may leave the scope out.
        var missing = SmartScopes.Missing(answer.Scope ?? properties.Items[SmartItems.Scope] ?? "");
        return missing.Count > 0
            ? ChartProblems.ScopeMissing.At("scope", $"The record does not let this page read {string.Join(" and ", missing)} of the patient.")
            : answer.TryGet("patient") is { Length: > 0 } ? null
            : ChartProblems.NoPatientOpen.At("patient", "The record opened this page without a patient.");
    }

    private SmartServerSettings Server(AuthenticationProperties properties) => discovery.Server(properties.Items[SmartItems.Server])
        ?? throw new InvalidOperationException("The server of a sign-in is in the settings when it begins.");

    private string Redirect(string ofRequest) =>
        settings.Chart.PublicAddress is { } open ? $"{open.OriginalString.TrimEnd('/')}{Options.CallbackPath}" : ofRequest;
}
