using System.Diagnostics;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Pages.Tests.Charts;

/// <summary>
/// A FHIR server and an authorization server that others wrote (npm @medplum/fhir-router and oidc-provider; tests/peers/README.md says
/// how independent they are), the service that delivers to the one and whose chart page is opened through the other, and the
/// sessions of two invented patients.
/// </summary>
public sealed class SmartRecord : IAsyncLifetime
{
    private const string Loader = "loads-what-the-tests-need";
    private readonly string data = Directory.CreateTempSubdirectory("hfb-chart-").FullName;
    private readonly (int Service, int Fhir, int Authorization) ports = (LoopbackPort.Claim(), LoopbackPort.Claim(), LoopbackPort.Claim());
    private PeerServer? peer;
    private Process? authorization;
    private BridgeHost? host;

    public static string? Missing => PeerServer.Missing;

    public Uri Service => new($"http://127.0.0.1:{ports.Service}/");

    public string Iss => $"http://127.0.0.1:{ports.Fhir}/fhir/R4";

    /// <summary>The same server by another name, which its authorization server does not know.</summary>
    public string OtherName => $"http://localhost:{ports.Fhir}/fhir/R4";

    /// <summary>In the settings, and does not say how to sign in.</summary>
    public string WithoutSignIn => $"http://127.0.0.1:{ports.Fhir}/nothing";

    internal HttpClient Fhir => peer!.Http;

    internal string Key { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        if (Missing is not null)
        {
            return;
        }

        var cancellation = TestContext.Current.CancellationToken;
        authorization = await StartAuthorizationAsync(cancellation);
        var issuer = $"http://127.0.0.1:{ports.Authorization}";
        peer = await PeerServer.StartAsync(
            keepDigits: true, cancellation, "--port", $"{ports.Fhir}", "--token", Loader, "--jwks", $"{issuer}/jwks", "--issuer", issuer);
        Fhir.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", Loader);
        await PostAsync(Fhir, "", await File.ReadAllTextAsync(Repository.Example("patients.json"), cancellation), "application/fhir+json", cancellation);
        host = await BridgeHost.StartAsync(await SettingsAsync(cancellation), listen: true, cancellation);
        await DeliverAsync(cancellation);
    }

    /// <summary>The patient's id at the FHIR server.</summary>
    internal async Task<string> PatientAsync(string identifier) =>
        (string)(await GetAsync($"Patient?identifier={identifier}"))["entry"]![0]!["resource"]!["id"]!;

    /// <summary>JSON of the FHIR server, with the digits it has.</summary>
    internal async Task<JsonNode> GetAsync(string path) => JsonNode.Parse(await Fhir.GetStringAsync(new Uri(path, UriKind.Relative)))!;

    public async ValueTask DisposeAsync()
    {
        if (host is not null)
        {
            await host.DisposeAsync();
        }

        peer?.Dispose();
        authorization?.Kill(entireProcessTree: true);
        authorization?.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(data, recursive: true);
    }

    private async Task<Process> StartAuthorizationAsync(CancellationToken cancellation)
    {
        var process = Process.Start(new ProcessStartInfo("node",
        [
            "smart-server.mjs", "--port", $"{ports.Authorization}", "--aud", Iss, "--client", "hand-course", "--redirect", $"{Service}chart/callback",
        ])
        {
            WorkingDirectory = Path.Combine(Repository.Root, "tests", "peers"), RedirectStandardOutput = true, RedirectStandardError = true,
        })!;
        process.BeginErrorReadLine();
        (await process.StandardOutput.ReadLineAsync(cancellation)).ShouldNotBeNull().ShouldStartWith("authorization server");
        return process;
    }

    private async Task<BridgeSettings> SettingsAsync(CancellationToken cancellation)
    {
        var secret = Path.Combine(data, "token");
        await File.WriteAllTextAsync(secret, Loader, cancellation);
        var settings = new BridgeSettings { DataDirectory = data, Demonstration = true, Listen = Service.OriginalString.TrimEnd('/') };
        settings.Security.KeyFile = Path.Combine(data, "keys.json");
        Key = new MachineKeyFile(settings.Security.KeyFile).Add("desk", [Scopes.Read]);
        settings.Target = new() { BaseUrl = Iss, SignIn = new() { Method = Delivery.Authorization.SignInMethod.Bearer, Secret = $"file:{secret}" } };
        settings.MeasurementErrors.Add(new() { Subject = "simulated-feeding", Population = "invented patients", Sem = 0.4m, Source = "invented for these tests" });
        foreach (var server in new[] { Iss, OtherName, WithoutSignIn })
        {
            settings.Chart.Servers.Add(new() { BaseUrl = server, ClientId = "hand-course" });
        }

        return settings;
    }

    private async Task DeliverAsync(CancellationToken cancellation)
    {
        using var api = new HttpClient(new SocketsHttpHandler()) { BaseAddress = Service };
        string[] files = [.. new[] { "ashdenne", "pellwick" }.SelectMany(name => Directory.GetFiles(Repository.Example("sessions"), $"{name}*.json", SearchOption.AllDirectories))];
        var keys = new List<string>();
        foreach (var file in files)
        {
            var document = await File.ReadAllTextAsync(file, cancellation);
            await PostAsync(api, "sessions", document, "application/json", cancellation);
            var node = JsonNode.Parse(document)!;
            keys.Add($"{node["site"]}/{node["sessionId"]}");
        }

        foreach (var key in keys)
        {
            while ((string?)JsonNode.Parse(await api.GetStringAsync(new Uri($"sessions/{key}", UriKind.Relative), cancellation))!["state"] is var state && state != "delivered")
            {
                state.ShouldBeOneOf("accepted", "sending");
                await Task.Delay(50, cancellation);
            }
        }
    }

    private static async Task PostAsync(HttpClient http, string path, string text, string type, CancellationToken cancellation)
    {
        using var body = new StringContent(text, Encoding.UTF8, type);
        using var answer = await http.PostAsync(new Uri(path, UriKind.Relative), body, cancellation);
        answer.IsSuccessStatusCode.ShouldBeTrue(await answer.Content.ReadAsStringAsync(cancellation));
    }
}
