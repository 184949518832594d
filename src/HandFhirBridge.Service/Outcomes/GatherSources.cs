using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>The targets as sources to gather from, each with a client that signs in as deliveries do. The embedded record is started unless a service runs it.</summary>
public sealed class GatherSources : IAsyncDisposable
{
    // The embedded record may listen on another port each time and is the same record still.
    private const string Embedded = "embedded record";

    private readonly List<IDisposable> clients = [];
    private InstanceLock? alone;
    private EmbeddedRecord? record;

    private GatherSources()
    {
    }

    /// <summary>The sources, in the order of the settings.</summary>
    public IReadOnlyList<GatherSource> All { get; private set; } = [];

    /// <summary>Makes the clients.</summary>
    /// <param name="settings">Checked settings.</param>
    /// <param name="targets">Targets to gather from.</param>
    /// <param name="cancellation">Gives up starting the record.</param>
    public static async Task<GatherSources> OpenAsync(BridgeSettings settings, IReadOnlyList<TargetSettings> targets, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(targets);
        var sources = new GatherSources();
        try
        {
            var all = new List<GatherSource>();
            foreach (var target in targets)
            {
                var address = target.BaseUrl is { } url ? new Uri(url.TrimEnd('/') + "/") : await sources.EmbeddedAsync(settings, cancellation);
                all.Add(sources.Open(target, target.BaseUrl is null ? RecordKey.SignIn(settings) : target.SignIn, address));
            }

            sources.All = all;
            return sources;
        }
        catch
        {
            await sources.DisposeAsync();
            throw;
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (var client in clients)
        {
            client.Dispose();
        }

        await (record?.DisposeAsync() ?? ValueTask.CompletedTask);
        alone?.Dispose();
    }

    private GatherSource Open(TargetSettings target, SignInOptions options, Uri address)
    {
        HttpMessageHandler connection = TargetSignIn.CreateConnection(options);
        if (TargetSignIn.CreateHandler(options, address, Kept(TargetSignIn.CreateConnection(options)), TimeProvider.System) is { } signIn)
        {
            signIn.InnerHandler = connection;
            connection = signIn;
        }

        // Files elsewhere get neither token nor client certificate.
        var source = new GatherSource(target.Name, address, Kept(connection), Kept(new SocketsHttpHandler()));
        return target.BaseUrl is null ? source with { Identity = Embedded } : source;
    }

    private HttpClient Kept(HttpMessageHandler connection)
    {
        var client = new HttpClient(connection);
        clients.Add(client);
        return client;
    }

    private async Task<Uri> EmbeddedAsync(BridgeSettings settings, CancellationToken cancellation)
    {
        alone = InstanceLock.TryTake(settings.DataDirectory);
        if (alone is null)
        {
            return new Uri($"http://127.0.0.1:{settings.Target.EmbeddedPort}/fhir/"); // the process that holds the lock serves it
        }

        record = await EmbeddedRecord.StartAsync(settings, new AuditTrail(settings.AuditDirectory, TimeProvider.System), cancellation);
        return record.BaseUrl;
    }
}
