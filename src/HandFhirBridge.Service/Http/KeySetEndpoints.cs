using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Http;

/// <summary>The public halves of the keys this service signs in with, for the targets' authorization servers.</summary>
public static class KeySetEndpoints
{
    /// <summary>Maps <c>/.well-known/jwks.json</c> where SMART Backend Services is set.</summary>
    public static void MapKeySet(this IEndpointRouteBuilder endpoints)
    {
        var folders = PublicKeys.Folders(endpoints.ServiceProvider.GetRequiredService<BridgeSettings>());
        if (folders.Count > 0)
        {
            endpoints.MapGet("/.well-known/jwks.json", () => Results.Json(PublicKeys.Of(folders)))
                .AllowAnonymous().WithTags("Reference").WithSummary("Public keys of this service (RFC 7517).");
        }
    }
}
