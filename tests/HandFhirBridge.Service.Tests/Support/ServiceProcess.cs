using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>The real service in a process of its own, to be killed like one.</summary>
internal sealed class ServiceProcess : IDisposable
{
    private readonly Process process;
    private readonly ConcurrentQueue<string> said;

    private ServiceProcess(Process process, Uri address, Uri record, ConcurrentQueue<string> said)
    {
        this.process = process;
        this.said = said;
        Api = new HttpClient(new SocketsHttpHandler()) { BaseAddress = address };
        Record = new HttpClient(new SocketsHttpHandler()) { BaseAddress = record };
    }

    public HttpClient Api { get; }

    /// <summary>The embedded record; answers nothing where the service delivers elsewhere.</summary>
    public HttpClient Record { get; }

    /// <summary>What it wrote to standard output so far.</summary>
    public string Output => string.Join('\n', said);

    public static Task<ServiceProcess> StartAsync(string dataDirectory, CancellationToken cancellation) =>
        StartAsync(dataDirectory, [], cancellation);

    /// <param name="dataDirectory">Its data and working directory.</param>
    /// <param name="settings">Settings beside those every test needs, by the names of docs/settings.md with two underscores.</param>
    /// <param name="cancellation">Gives up waiting for it to be ready.</param>
    public static async Task<ServiceProcess> StartAsync(
        string dataDirectory, IReadOnlyCollection<(string Name, string Value)> settings, CancellationToken cancellation)
    {
        var (api, record) = (FreePort(), FreePort());
        var start = new ProcessStartInfo("dotnet", [Repository.ServiceProgram, "serve"])
        {
            WorkingDirectory = dataDirectory,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var (name, value) in (IEnumerable<(string, string)>)
            [("DataDirectory", dataDirectory), ("Demonstration", "true"), ("Listen", $"http://127.0.0.1:{api}"), ("Target__EmbeddedPort", $"{record}"), .. settings])
        {
            // Those of OpenTelemetry are no settings of ours.
            start.Environment[name.StartsWith("OTEL_", StringComparison.Ordinal) ? name : $"HFB_{name}"] = value;
        }

        var process = Process.Start(start)!;
        var said = new ConcurrentQueue<string>();
        // Drained, or a full pipe would stop the service.
        process.OutputDataReceived += (_, line) => said.Enqueue(line.Data ?? "");
        process.ErrorDataReceived += (_, line) => Console.Error.WriteLine(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var service = new ServiceProcess(process, new Uri($"http://127.0.0.1:{api}"), new Uri($"http://127.0.0.1:{record}/fhir/"), said);
        await service.ReadyAsync(cancellation);
        return service;
    }

    /// <summary>kill -9: no chance to tidy up.</summary>
    public void Kill()
    {
        process.Kill(entireProcessTree: true);
        process.WaitForExit();
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            Kill();
        }

        Api.Dispose();
        Record.Dispose();
        process.Dispose();
    }

    private async Task ReadyAsync(CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(3));
        while (true)
        {
            if (process.HasExited)
            {
                throw new InvalidOperationException($"The service ended with {process.ExitCode} before it was ready.");
            }

            try
            {
                using var answer = await Api.GetAsync(new Uri("health/ready", UriKind.Relative), limit.Token);
                if (answer.StatusCode == HttpStatusCode.OK)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(100, limit.Token);
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
