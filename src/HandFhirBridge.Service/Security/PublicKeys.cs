using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Security;

/// <summary>The public halves of the keys this service signs in to targets with, as a JWK Set (RFC 7517).</summary>
internal static class PublicKeys
{
    /// <summary>Folders of signing keys; none where no target is signed in to with SMART Backend Services.</summary>
    public static IReadOnlyList<string> Folders(BridgeSettings settings) =>
    [
        .. settings.Targets.Prepend(settings.Target).Select(target => target.SignIn)
            .Where(signIn => signIn.Method == SignInMethod.BackendServices).Select(signIn => signIn.KeysDirectory).OfType<string>()
            .Distinct(StringComparer.Ordinal),
    ];

    /// <summary>Reads them anew, so that a new key needs no restart.</summary>
    public static Dictionary<string, object> Of(IEnumerable<string> folders) => new()
    {
        ["keys"] = folders.SelectMany(folder => (IEnumerable<object>)new SigningKeys(folder).PublicKeySet()["keys"]).ToList(),
    };
}
