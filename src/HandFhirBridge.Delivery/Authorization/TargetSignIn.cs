using System.Security.Cryptography.X509Certificates;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Turns the sign-in settings of a target into what its HTTP client needs.</summary>
public static class TargetSignIn
{
    /// <summary>The handler that signs requests in, or null if the method is <see cref="SignInMethod.None"/>.</summary>
    /// <param name="options">Checked settings (<see cref="SignInCheck"/>).</param>
    /// <param name="fhirBase">FHIR base of the target; its SMART configuration is asked where no token endpoint is set.</param>
    /// <param name="plain">Client without sign-in, for discovery and the token endpoint.</param>
    /// <param name="clock">Gives the time.</param>
    public static DelegatingHandler? CreateHandler(SignInOptions options, Uri fhirBase, HttpClient plain, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(options);
        return options.Method switch
        {
            SignInMethod.Bearer => new SignInHandler(new FixedToken(options.Secret!)),
            SignInMethod.Basic => new BasicHandler(options.ClientId!, options.Secret!),
            SignInMethod.ClientSecret => new SignInHandler(ClientCredentials(options, fhirBase, plain, null, clock)),
            SignInMethod.BackendServices => new SignInHandler(ClientCredentials(
                options, fhirBase, plain, new ClientAssertions(new SigningKeys(options.KeysDirectory!), clock), clock)),
            _ => null,
        };
    }

    /// <summary>The connection to the target, with the client certificate for mutual TLS if one is set.</summary>
    public static SocketsHttpHandler CreateConnection(SignInOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var handler = new SocketsHttpHandler { AllowAutoRedirect = false };
        if (options.ClientCertificatePath is { } path)
        {
            handler.SslOptions.ClientCertificates = [X509Certificate2.CreateFromPemFile(path, path)];
        }

        return handler;
    }

    private static ClientCredentialsTokens ClientCredentials(
        SignInOptions options, Uri fhirBase, HttpClient plain, ClientAssertions? assertions, TimeProvider clock)
    {
        var discovery = new SmartConfiguration(plain, fhirBase);
        return new(
            plain,
            options,
            options.TokenEndpoint is { } endpoint ? _ => Task.FromResult(endpoint) : discovery.TokenEndpointAsync,
            assertions,
            clock);
    }
}
