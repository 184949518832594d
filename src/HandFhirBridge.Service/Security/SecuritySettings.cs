namespace HandFhirBridge.Service.Security;

/// <summary>Who may call the HTTP API.</summary>
public sealed class SecuritySettings
{
    /// <summary>Issuer of OpenID Connect whose bearer tokens are accepted; its discovery document gives the keys. Null accepts none.</summary>
    public Uri? Authority { get; set; }

    /// <summary>Audience a token must name. Required with <see cref="Authority"/>.</summary>
    public string? Audience { get; set; }

    /// <summary>File of machine keys, written by <c>keys add</c>; holds hashes only. Null accepts none.</summary>
    public string? KeyFile { get; set; }

    /// <summary>True if some way to sign in is set.</summary>
    public bool AnySignIn => Authority is not null || KeyFile is not null;
}
