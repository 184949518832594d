using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Finds every sign-in setting that is missing, contradictory or unusable, before anything is sent.</summary>
public static class SignInCheck
{
    /// <summary>One sentence for each fault, naming the setting and the remedy.</summary>
    /// <param name="options">Settings as read.</param>
    /// <param name="name">Path of the settings, for example <c>Target:SignIn</c>.</param>
    /// <param name="clock">Tells whether the certificate is in force.</param>
    public static IEnumerable<string> Find(SignInOptions options, string name, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(clock);
        return Client(options, name).Concat(Secret(options, name)).Concat(Keys(options, name)).Concat(Certificate(options, name, clock));
    }

    private static IEnumerable<string> Client(SignInOptions options, string name)
    {
        var needed = options.Method is SignInMethod.Basic or SignInMethod.ClientSecret or SignInMethod.BackendServices;
        if (needed && string.IsNullOrWhiteSpace(options.ClientId))
        {
            yield return $"{name}:ClientId is missing; the method {options.Method} needs it. Write what the target's administrator registered.";
        }

        if (options.Method == SignInMethod.Basic && options.ClientId?.Contains(':', StringComparison.Ordinal) == true)
        {
            yield return $"{name}:ClientId holds a colon, which a user name of HTTP Basic cannot (RFC 7617). Ask for another user name.";
        }
    }

    private static IEnumerable<string> Secret(SignInOptions options, string name)
    {
        if (options.Method is not (SignInMethod.Bearer or SignInMethod.Basic or SignInMethod.ClientSecret))
        {
            yield break;
        }

        if (options.Secret is null || !SecretReference.IsWellFormed(options.Secret))
        {
            yield return $"{name}:Secret must say where the secret lies: env:NAME or file:PATH. The secret itself never stands in the settings.";
        }
        else if (Failure(() => SecretReference.Read(options.Secret)) is { } failure)
        {
            yield return $"{name}:Secret: {failure}";
        }
    }

    private static IEnumerable<string> Keys(SignInOptions options, string name)
    {
        if (options.Method != SignInMethod.BackendServices)
        {
            yield break;
        }

        if (options.KeysDirectory is null)
        {
            yield return $"{name}:KeysDirectory is missing; BackendServices signs with a private key. Name the folder that holds KEYID.pem.";
        }
        else if ((Failure(() => new SigningKeys(options.KeysDirectory).PublicKeySet()) ?? Failure(() => new SigningKeys(options.KeysDirectory).Current())) is { } failure)
        {
            yield return $"{name}:KeysDirectory: {failure}";
        }
    }

    private static IEnumerable<string> Certificate(SignInOptions options, string name, TimeProvider clock)
    {
        if (options.ClientCertificatePath is not { } path)
        {
            yield break;
        }

        X509Certificate2? certificate = null;
        try
        {
            certificate = X509Certificate2.CreateFromPemFile(path, path);
        }
        catch (Exception broken) when (broken is CryptographicException or IOException or ArgumentException)
        {
            // Said below, in one place for all causes.
        }

        if (certificate is null)
        {
            yield return $"{name}:ClientCertificatePath {path} is not a PEM file with a certificate and its private key.";
            yield break;
        }

        using (certificate)
        {
            if (certificate.NotAfter.ToUniversalTime() <= clock.GetUtcNow().UtcDateTime)
            {
                yield return $"{name}:ClientCertificatePath {path} expired on {certificate.NotAfter:yyyy-MM-dd}. Install the renewed certificate.";
            }
        }
    }

    private static string? Failure(Action attempt)
    {
        try
        {
            attempt();
            return null;
        }
        catch (SignInException failed)
        {
            return failed.Message;
        }
    }
}
