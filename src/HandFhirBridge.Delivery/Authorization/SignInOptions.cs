namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Sign-in to one target, as a site sets it.</summary>
public sealed class SignInOptions
{
    /// <summary>Method. Default <see cref="SignInMethod.None"/>.</summary>
    public SignInMethod Method { get; set; }

    /// <summary>Client id for OAuth methods, user name for <see cref="SignInMethod.Basic"/>; null for the others.</summary>
    public string? ClientId { get; set; }

    /// <summary>
    /// Where the secret lies: <c>env:NAME</c> or <c>file:PATH</c>. The bearer token, the password or the client secret,
    /// by method; never the secret itself. Null for the methods without one.
    /// </summary>
    public string? Secret { get; set; }

    /// <summary>Scopes asked for, separated by spaces, for example <c>system/Observation.cruds system/Patient.rs</c>; null asks for none.</summary>
    public string? Scope { get; set; }

    /// <summary>Token endpoint; null finds it in the target's <c>.well-known/smart-configuration</c>.</summary>
    public Uri? TokenEndpoint { get; set; }

    /// <summary>
    /// Folder of private signing keys in PEM (<c>KEYID.pem</c>), for <see cref="SignInMethod.BackendServices"/>. All their public
    /// halves are published; the name that sorts last signs. A new key is published first, as <c>KEYID.next.pem</c>, and then renamed.
    /// </summary>
    public string? KeysDirectory { get; set; }

    /// <summary>Client certificate for mutual TLS (PEM with its private key); null uses none. Goes with every method.</summary>
    public string? ClientCertificatePath { get; set; }
}
