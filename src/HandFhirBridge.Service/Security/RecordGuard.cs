using HandFhirBridge.Record;
using HandFhirBridge.Service.Settings;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Authorization;

namespace HandFhirBridge.Service.Security;

/// <summary>Who may do what at the embedded record: the scopes of the service, by what a request does.</summary>
internal static class RecordGuard
{
    /// <summary>True where the record is open to whoever is on this machine, because nobody can sign in, or nobody need.</summary>
    public static bool IsOpen(BridgeSettings settings) => settings.Demonstration || !settings.Security.AnySignIn;

    /// <summary>Asks for a signed-in caller with the scopes that each endpoint below needs.</summary>
    public static void Guard(this IEndpointConventionBuilder record) => record.Finally(endpoint =>
    {
        var actions = endpoint.Metadata.OfType<RecordEndpoint>().Single().Actions;
        endpoint.Metadata.Add(actions == RecordActions.None
            ? new AllowAnonymousAttribute()
            : new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireAssertion(c => May(c, actions)).Build());
    });

    /// <summary>As the CapabilityStatement says it; null where the record is open.</summary>
    public static CapabilityStatement.SecurityComponent? Statement(BridgeSettings settings) => IsOpen(settings) ? null : new()
    {
        Cors = false,
        Service = settings.Security.Authority is null ? [] : [new("http://terminology.hl7.org/CodeSystem/restful-security-service", "OAuth")],
        Description = $"Bearer tokens (RFC 6750): {string.Join(" or ", Ways(settings.Security))}. Scopes: read for reading and searching, submit for writing, both for "
            + "Bundles and for writing under a condition, read and operate for bulk export.",
    };

    private static IEnumerable<string> Ways(SecuritySettings security)
    {
        if (security.Authority is { } authority)
        {
            yield return $"access tokens of {authority.OriginalString}";
        }

        if (security.KeyFile is not null)
        {
            yield return "machine keys of the service";
        }
    }

    private static bool May(AuthorizationHandlerContext context, RecordActions actions)
    {
        // A condition tells whether something is there, and what.
        var conditional = context.Resource is HttpContext { Request.Headers: var headers } && headers.ContainsKey("If-None-Exist");
        return Scopes.All.Where(s => IsNeeded(s, conditional ? actions | RecordActions.Read : actions)).All(s => SecurityRegistration.Holds(context.User, s));
    }

    // An export takes many patients' data out at once: for those who look after the system and may read.
    private static bool IsNeeded(string scope, RecordActions actions) => scope switch
    {
        Scopes.Read => (actions & (RecordActions.Read | RecordActions.Export)) != 0,
        Scopes.Submit => (actions & RecordActions.Write) != 0,
        Scopes.Operate => (actions & RecordActions.Export) != 0,
        _ => false,
    };
}
