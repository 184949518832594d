using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Dispatch;
using Microsoft.Extensions.Http;
using Microsoft.Extensions.Options;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Says how the HTTP client of each target is made: its connection, its sign-in, its limits.</summary>
/// <param name="options">The configured targets.</param>
/// <param name="clients">Gives the plain client that discovery and token requests use.</param>
/// <param name="clock">Gives the time.</param>
internal sealed class TargetClientSetup(DeliveryOptions options, Lazy<IHttpClientFactory> clients, TimeProvider clock)
    : IConfigureNamedOptions<HttpClientFactoryOptions>
{
    private const string Prefix = "HandFhirBridge.Target:";
    private const string Plain = "HandFhirBridge.SignIn:";

    public static string NameOf(TargetOptions target) => Prefix + target.Name;

    public void Configure(HttpClientFactoryOptions options)
    {
        // Only named clients are ours.
    }

    public void Configure(string? name, HttpClientFactoryOptions client)
    {
        if (options.Targets.FirstOrDefault(t => name == NameOf(t) || name == Plain + t.Name) is not { } target)
        {
            return;
        }

        // The connections renew themselves, so the handler may live as long as the service.
        client.HandlerLifetime = Timeout.InfiniteTimeSpan;
        client.HttpClientActions.Add(made =>
        {
            // The pipeline around each request to the target keeps the time.
            made.Timeout = name == NameOf(target) ? Timeout.InfiniteTimeSpan : target.Timeout;
            made.MaxResponseContentBufferSize = target.LargestAnswerBytes;
        });
        client.HttpMessageHandlerBuilderActions.Add(builder =>
        {
            var connection = TargetSignIn.CreateConnection(target.SignIn);
            connection.ConnectTimeout = target.ConnectTimeout;
            connection.PooledConnectionLifetime = TimeSpan.FromMinutes(5);
            builder.PrimaryHandler = connection;
            if (name == NameOf(target) && TargetSignIn.CreateHandler(
                target.SignIn, target.BaseUrl!, clients.Value.CreateClient(Plain + target.Name), clock) is { } signIn)
            {
                builder.AdditionalHandlers.Add(signIn);
            }
        });
    }
}
