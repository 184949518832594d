using System.Net;
using System.Text;
using System.Text.Json;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Pages.Tests.Bedside;

/// <summary>The real service with its embedded record and the invented patients, on a port that stays the same when it stops and starts again.</summary>
public sealed class Clinic : IAsyncLifetime
{
    private readonly HttpClient http = new(new SocketsHttpHandler(), disposeHandler: true);
    private readonly string data = Directory.CreateTempSubdirectory("hfb-pages-").FullName;
    private readonly int port = LoopbackPort.Claim();
    private readonly int recordPort = LoopbackPort.Claim();
    private BridgeHost? host;

    /// <summary>True for a service that lets nobody in without a key, as in a clinic; false for a demonstration on this machine.</summary>
    internal bool SignInNeeded { get; init; }

    private string KeyFile => Path.Combine(data, "keys.json");

    public Uri Page => new($"http://127.0.0.1:{port}/table/");

    public Uri Record => new($"http://127.0.0.1:{recordPort}/fhir/");

    public async ValueTask InitializeAsync()
    {
        if (!Browser.Present)
        {
            return;
        }

        await StartAsync();
        var patients = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "examples", "patients.json"));
        using var body = new StringContent(patients, Encoding.UTF8, "application/fhir+json");
        using var record = RecordClient();
        (await record.PostAsync(Record, body)).EnsureSuccessStatusCode();
    }

    /// <summary>A key for one device, as whoever runs the service makes it.</summary>
    internal string NewKey(string device) => new MachineKeyFile(KeyFile).Add(device, [Scopes.Submit, Scopes.Read]);

    /// <summary>No key made so far is accepted any more.</summary>
    internal void WithdrawKeys() => File.Delete(KeyFile);

    /// <summary>Starts the service, also again on what it kept.</summary>
    public async Task StartAsync() => host ??= await BridgeHost.StartAsync(Settings(), listen: true, CancellationToken.None);

    /// <summary>Takes the service away, as a dead network does.</summary>
    public async Task StopAsync()
    {
        if (host is not null)
        {
            await host.DisposeAsync();
            host = null;
        }
    }

    /// <summary>A session document handed in as a file would be.</summary>
    public async Task<HttpStatusCode> SubmitAsync(string document)
    {
        using var body = new StringContent(document, Encoding.UTF8, "application/json");
        return (await http.PostAsync(new Uri(Page, "../sessions"), body)).StatusCode;
    }

    /// <summary>Gathers what the record holds, as the command does.</summary>
    public async Task GatherAsync()
    {
        using var record = RecordClient();
        var sources = new[] { new GatherSource("record", Record, record, record) };
        (await new Gatherer(OutcomeFolders.Gathered(Settings()), new GatherOptions(), TimeProvider.System).GatherAsync(sources, new Progress<GatherProgress>(), CancellationToken.None))
            .ShouldAllBe(result => result.Problem == null);
    }

    /// <summary>JSON of an address of the service.</summary>
    public async Task<JsonElement> GetAsync(string path) =>
        JsonDocument.Parse(await http.GetStringAsync(new Uri(Page, $"../{path}"))).RootElement;

    /// <summary>JSON text of an address of the record, digits as they stand there.</summary>
    public async Task<string> RecordAsync(string path)
    {
        using var record = RecordClient();
        return await record.GetStringAsync(new Uri(Record, path));
    }

    public Task<byte[]> BytesAsync(string path) => http.GetByteArrayAsync(new Uri(Page, path));

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        http.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(data, recursive: true);
    }

    // Signs in as the service itself does, with the key that lies beside the record.
    private HttpClient RecordClient() =>
        new(new SocketsHttpHandler()) { DefaultRequestHeaders = { Authorization = new("Bearer", File.ReadAllText(Path.Combine(data, "record.key"))) } };

    private BridgeSettings Settings()
    {
        var settings = new BridgeSettings { DataDirectory = data, Demonstration = !SignInNeeded, Listen = $"http://127.0.0.1:{port}" };
        settings.Security.KeyFile = SignInNeeded ? KeyFile : null;
        settings.Target.EmbeddedPort = recordPort;
        // Few sessions are enough to look at a page.
        settings.Outcomes.SmallestGroup = 1;
        settings.Sites.Add(new() { Id = "harbour-hand-clinic", Name = "Harbour Hand Clinic" });
        settings.Sites.Add(new() { Id = "alder-street-therapy", Name = "Alder Street Therapy" });
        return settings;
    }
}
