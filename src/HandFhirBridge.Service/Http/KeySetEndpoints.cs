using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Http;

/// <summary>The public halves of the keys this service signs in with, for the targets' authorization servers.</summary>
public static class KeySetEndpoints
{
    /// <summary>Maps <c>/.well-known/jwks.json</c> where SMART Backend Services is set.</summary>
    public static void MapKeySet(this IEndpointRouteBuilder endpoints)
    {
        var settings = endpoints.ServiceProvider.GetRequiredService<BridgeSettings>();
        if (settings.Target.SignIn is { Method: SignInMethod.BackendServices, KeysDirectory: { } directory })
        {
            endpoints.MapGet("/.well-known/jwks.json", () => Results.Json(new SigningKeys(directory).PublicKeySet()))
                .AllowAnonymous().WithTags("Reference").WithSummary("Public keys of this service (RFC 7517).");
        }
    }
}
