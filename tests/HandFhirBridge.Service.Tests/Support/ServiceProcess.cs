using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>The real service in a process of its own, to be killed like one. It chooses its ports itself: one chosen here could be another's by then.</summary>
internal sealed partial class ServiceProcess : IDisposable
{
    private readonly Process process;
    private readonly ConcurrentQueue<string> output = new();
    private readonly ConcurrentQueue<string> error = new();
    private readonly TaskCompletionSource<Match> listening = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private ServiceProcess(Process process)
    {
        this.process = process;
        // Drained, or a full pipe would stop the service.
        process.OutputDataReceived += (_, line) => Keep(line.Data ?? "");
        process.ErrorDataReceived += (_, line) => error.Enqueue(line.Data ?? "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public HttpClient Api { get; } = new(new SocketsHttpHandler());

    /// <summary>The embedded record; where the service delivers elsewhere, the server it delivers to.</summary>
    public HttpClient Record { get; } = new(new SocketsHttpHandler());

    /// <summary>What it wrote to standard output so far.</summary>
    public string Output => string.Join('\n', output);

    public static Task<ServiceProcess> StartAsync(string dataDirectory, CancellationToken cancellation) =>
        StartAsync(dataDirectory, [], cancellation);

    /// <param name="dataDirectory">Its data and working directory.</param>
    /// <param name="settings">Settings beside those every test needs, by the names of docs/settings.md with two underscores.</param>
    /// <param name="cancellation">Gives up waiting for it to be ready.</param>
    public static async Task<ServiceProcess> StartAsync(
        string dataDirectory, IReadOnlyCollection<(string Name, string Value)> settings, CancellationToken cancellation)
    {
        var start = new ProcessStartInfo("dotnet", [Repository.ServiceProgram, "serve"])
        {
            WorkingDirectory = dataDirectory,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var (name, value) in (IEnumerable<(string, string)>)
            [("DataDirectory", dataDirectory), ("Demonstration", "true"), ("Listen", "http://127.0.0.1:0"), ("Target__EmbeddedPort", "0"), .. settings])
        {
            // Those of OpenTelemetry are no settings of ours.
            start.Environment[name.StartsWith("OTEL_", StringComparison.Ordinal) ? name : $"HFB_{name}"] = value;
        }

        var service = new ServiceProcess(Process.Start(start)!);
        try
        {
            await service.ReadyAsync(cancellation);
            return service;
        }
        catch
        {
            service.Dispose();
            throw;
        }
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
        var ended = process.WaitForExitAsync(limit.Token);
        if (await Task.WhenAny(listening.Task, ended) == ended)
        {
            await ended;
            throw new InvalidOperationException($"The service ended with {process.ExitCode} before it was ready: {string.Join('\n', error)}");
        }

        var addresses = await listening.Task;
        Api.BaseAddress = new Uri(addresses.Groups["api"].Value);
        Record.BaseAddress = new Uri(addresses.Groups["target"].Value);
        while (true)
        {
            using var answer = await Api.GetAsync(new Uri("health/ready", UriKind.Relative), limit.Token);
            if (answer.StatusCode == HttpStatusCode.OK)
            {
                return;
            }

            await Task.Delay(100, limit.Token);
        }
    }

    private void Keep(string line)
    {
        output.Enqueue(line);
        if (Listening.Match(line) is { Success: true } match)
        {
            listening.TrySetResult(match);
        }
    }

    [GeneratedRegex("^Listening on (?<api>[^;, ]+); delivering to (?<target>.+)\\. Ctrl-C stops\\.$")]
    private static partial Regex Listening { get; }
}
