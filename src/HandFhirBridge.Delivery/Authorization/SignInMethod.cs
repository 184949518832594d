namespace HandFhirBridge.Delivery.Authorization;

/// <summary>How the bridge signs in to a target.</summary>
public enum SignInMethod
{
    /// <summary>Not at all.</summary>
    None,

    /// <summary>A bearer token that somebody else renews (RFC 6750).</summary>
    Bearer,

    /// <summary>User name and password with each request (RFC 7617).</summary>
    Basic,

    /// <summary>OAuth 2.0 client credentials with a client secret (RFC 6749 section 4.4).</summary>
    ClientSecret,

    /// <summary>SMART Backend Services: client credentials with a signed assertion (SMART App Launch 2.2; RFC 7523).</summary>
    BackendServices,
}
