using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text.Json;
using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>tests/peers/backend-server.mjs: npm oidc-provider as the authorization server of a target, with three clients of ours.</summary>
public sealed class AuthorizationServer : IAsyncLifetime
{
    private readonly KeyFolder rsa = new KeyFolder().WithRsa("rsa");
    private readonly KeyFolder ec = new KeyFolder().WithEc("ec");
    private readonly KeyFolder stranger = new KeyFolder().WithEc("ec");
    private readonly string clients = Path.GetTempFileName();
    private Process? process;

    /// <summary>Why it does not run; null if it does.</summary>
    public string? Missing { get; private set; }

    public Uri TokenEndpoint { get; private set; } = new("http://127.0.0.1/");

    public string Rsa => rsa.Path;

    public string Ec => ec.Path;

    /// <summary>A key of a name that is registered, but another key.</summary>
    public string Stranger => stranger.Path;

    public async ValueTask InitializeAsync()
    {
        var folder = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", "peers"));
        if (!Directory.Exists(Path.Combine(folder, "node_modules", "oidc-provider")))
        {
            Missing = "tests/peers/node_modules is absent; run npm ci in tests/peers.";
            return;
        }

        var port = LoopbackPort.Claim();
        await File.WriteAllTextAsync(clients, Registered(), TestContext.Current.CancellationToken);
        process = Process.Start(new ProcessStartInfo("node", ["backend-server.mjs", clients, "--port", $"{port}", "--aud", "http://127.0.0.1/fhir"])
        {
            WorkingDirectory = folder, RedirectStandardOutput = true,
        })!;
        (await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken)).ShouldBe($"authorization server http://127.0.0.1:{port}");
        TokenEndpoint = new Uri($"http://127.0.0.1:{port}/token");
    }

    public ValueTask DisposeAsync()
    {
        process?.Kill(entireProcessTree: true);
        process?.Dispose();
        File.Delete(clients);
        rsa.Dispose();
        ec.Dispose();
        stranger.Dispose();
        return ValueTask.CompletedTask;
    }

    private string Registered() => JsonSerializer.Serialize(new object[]
    {
        new { client_id = "by-rsa", jwks = new SigningKeys(Rsa).PublicKeySet(), scope = "system/*.cruds" },
        new { client_id = "by-ec", jwks = new SigningKeys(Ec).PublicKeySet(), scope = "system/*.cruds system/Patient.rs system/Observation.cruds" },
        new { client_id = "reader", jwks = new SigningKeys(Ec).PublicKeySet(), scope = "system/Observation.rs" },
    });

    private static string Here([CallerFilePath] string path = "") => path;
}
