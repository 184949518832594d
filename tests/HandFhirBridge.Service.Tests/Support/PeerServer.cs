using System.Diagnostics;
using System.Net.Http.Headers;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>
/// The FHIR R4 server of tests/peers (npm @medplum/fhir-router), which others wrote, on a free loopback port. The README
/// there says how independent it is of this project.
/// </summary>
internal sealed class PeerServer : IDisposable
{
    private readonly Process process;

    private PeerServer(Process process, Uri baseUrl)
    {
        this.process = process;
        BaseUrl = baseUrl;
        Http = new HttpClient(new SocketsHttpHandler()) { BaseAddress = baseUrl };
        Http.DefaultRequestHeaders.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
    }

    /// <summary>FHIR base, with a slash at the end.</summary>
    public Uri BaseUrl { get; }

    public HttpClient Http { get; }

    private static string Folder => Path.Combine(Repository.Root, "tests", "peers");

    /// <summary>Why the server cannot run here; null if it can.</summary>
    public static string? Missing =>
        Directory.Exists(Path.Combine(Folder, "node_modules")) ? null : "tests/peers/node_modules is absent; run npm ci in tests/peers.";

    /// <summary>Starts it.</summary>
    /// <param name="keepDigits">True gives decimals back as they came; false loses trailing zeros, as JavaScript servers do.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <param name="options">Further options of fhir-server.mjs.</param>
    public static async Task<PeerServer> StartAsync(bool keepDigits, CancellationToken cancellation, params string[] options)
    {
        string[] digits = keepDigits ? ["--keep-digits"] : [];
        var start = new ProcessStartInfo("node", ["fhir-server.mjs", "--port", "0", .. digits, .. options])
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
        };
        var process = Process.Start(start)!;
        // Its one line of output says where it listens: FHIR R4 at http://127.0.0.1:PORT/fhir/R4 (n profiles).
        var line = await process.StandardOutput.ReadLineAsync(cancellation)
            ?? throw new InvalidOperationException($"The peer ended with {process.ExitCode} before it listened.");
        return new PeerServer(process, new Uri(line.Split(' ').Single(w => w.StartsWith("http:", StringComparison.Ordinal)) + "/"));
    }

    public void Dispose()
    {
        process.Kill(entireProcessTree: true);
        process.WaitForExit();
        Http.Dispose();
        process.Dispose();
    }
}
