using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace HandFhirBridge.Record.Tests.Peer;

/// <summary>
/// The FHIR R4 server of tests/peers (npm @medplum/fhir-router), which others wrote, on a free loopback port. The README there says how
/// independent it is of this project.
/// </summary>
internal sealed class PeerServer : IDisposable
{
    private readonly Process process;

    private PeerServer(Process process, Uri baseUrl)
    {
        this.process = process;
        Http = new HttpClient(new SocketsHttpHandler()) { BaseAddress = baseUrl };
    }

    public HttpClient Http { get; }

    public static string Root { get; } = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", ".."));

    /// <summary>Why it cannot run here; null if it can.</summary>
    public static string? Missing => !Directory.Exists(Path.Combine(Folder, "node_modules")) ? "tests/peers/node_modules is absent; run npm ci in tests/peers." : null;

    private static string Folder => Path.Combine(Root, "tests", "peers");

    public static async Task<PeerServer> StartAsync(CancellationToken cancellation)
    {
        var process = Process.Start(new ProcessStartInfo("node", ["fhir-server.mjs", "--port", "0"]) { WorkingDirectory = Folder, RedirectStandardOutput = true })!;
        // Its one line of output says where it listens: FHIR R4 at http://127.0.0.1:PORT/fhir/R4 (n profiles).
        var line = await process.StandardOutput.ReadLineAsync(cancellation)
            ?? throw new InvalidOperationException($"The peer ended with {process.ExitCode} before it listened.");
        return new(process, new(line.Split(' ').Single(w => w.StartsWith("http:", StringComparison.Ordinal)) + "/"));
    }

    public void Dispose()
    {
        process.Kill(entireProcessTree: true);
        process.WaitForExit();
        Http.Dispose();
        process.Dispose();
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
