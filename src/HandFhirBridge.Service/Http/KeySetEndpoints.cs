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
        var directories = settings.Targets.Prepend(settings.Target).Select(target => target.SignIn)
            .Where(signIn => signIn.Method == SignInMethod.BackendServices).Select(signIn => signIn.KeysDirectory).OfType<string>()
            .Distinct(StringComparer.Ordinal).ToList();
        if (directories.Count > 0)
        {
            endpoints.MapGet("/.well-known/jwks.json", () => Results.Json(PublicKeys(directories)))
                .AllowAnonymous().WithTags("Reference").WithSummary("Public keys of this service (RFC 7517).");
        }
    }

    private static Dictionary<string, object> PublicKeys(IEnumerable<string> directories) => new()
    {
        ["keys"] = directories.SelectMany(directory => (IEnumerable<object>)new SigningKeys(directory).PublicKeySet()["keys"]).ToList(),
    };
}
