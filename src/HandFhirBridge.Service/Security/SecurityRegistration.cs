using System.Security.Claims;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.JwtBearer;
using Microsoft.AspNetCore.Authorization;

namespace HandFhirBridge.Service.Security;

/// <summary>Sign-in of callers and what each may do.</summary>
public static class SecurityRegistration
{
    private const string Chooser = "chooser";

    /// <summary>
    /// Adds the ways to sign in that are set, and one policy a scope. Everything asks for a signed-in caller unless it says
    /// otherwise; a caller who has no way to sign in is let in only on loopback in demonstration mode.
    /// </summary>
    public static IServiceCollection AddSecurity(this IServiceCollection services, BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return services.AddSecurity(settings, open: settings.Demonstration);
    }

    /// <param name="services">Where they are added.</param>
    /// <param name="settings">Checked settings.</param>
    /// <param name="open">Lets callers on this machine in without signing in.</param>
    internal static IServiceCollection AddSecurity(this IServiceCollection services, BridgeSettings settings, bool open)
    {
        var security = settings.Security;
        services.AddSingleton(new MachineKeyFile(security.KeyFile ?? ""));
        var authentication = services
            .AddAuthentication(Chooser)
            .AddPolicyScheme(Chooser, null, choose => choose.ForwardDefaultSelector = context => Choose(context, settings, open))
            .AddScheme<AuthenticationSchemeOptions, MachineKeyHandler>(MachineKeyHandler.SchemeName, null);
        authentication.AddReadingCookie();
        if (security.Authority is { } authority)
        {
            authentication.AddJwtBearer(bearer =>
            {
                bearer.Authority = authority.OriginalString;
                bearer.Audience = security.Audience;
                bearer.MapInboundClaims = false;
                bearer.RequireHttpsMetadata = !authority.IsLoopback;
                bearer.TokenValidationParameters.NameClaimType = "sub";
            });
        }

        if (open)
        {
            authentication.AddScheme<AuthenticationSchemeOptions, DemonstrationHandler>(DemonstrationHandler.SchemeName, null);
        }

        var policies = services.AddAuthorizationBuilder();
        foreach (var scope in Scopes.All.Where(s => s != Scopes.Outcomes))
        {
            policies.AddPolicy(scope, policy => policy.RequireAuthenticatedUser().RequireAssertion(c => Holds(c.User, scope)));
        }

        policies.AddPolicy(
            Scopes.ReadOrOperate, policy => policy.RequireAuthenticatedUser().RequireAssertion(c => Holds(c.User, Scopes.Read) || Holds(c.User, Scopes.Operate)));
        policies.AddPolicy(Scopes.Outcomes, policy => policy.RequireAuthenticatedUser().RequireAssertion(c => MayAsk(c.User)));
        policies.SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build());
        return services;
    }

    /// <summary>True for a caller who may see how groups do: whoever may read patients' results may, and whoever may see that alone.</summary>
    internal static bool MayAsk(ClaimsPrincipal caller) => Holds(caller, Scopes.Read) || Holds(caller, Scopes.Outcomes);

    private static string Choose(HttpContext context, BridgeSettings settings, bool open)
    {
        var header = context.Request.Headers.Authorization.ToString();
        return header switch
        {
            "" when open => DemonstrationHandler.SchemeName,
            "" when ReadingCookie.IsFor(context.Request) => ReadingCookie.SchemeName,
            _ when settings.Security.Authority is not null && !header.StartsWith("Bearer " + MachineKey.Prefix, StringComparison.Ordinal)
                => JwtBearerDefaults.AuthenticationScheme,
            _ => MachineKeyHandler.SchemeName,
        };
    }

    // OAuth 2.0 writes scopes into one claim, separated by spaces (RFC 8693 section 4.2); some servers call it scp.
    internal static bool Holds(ClaimsPrincipal caller, string scope) =>
        caller.FindAll(c => c.Type is "scope" or "scp").SelectMany(c => c.Value.Split(' ')).Contains(scope);
}
