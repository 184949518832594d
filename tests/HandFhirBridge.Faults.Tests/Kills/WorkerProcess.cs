using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Faults.Tests.Servers;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>Ledger and dispatcher of the service in a process of their own, to be killed.</summary>
internal sealed class WorkerProcess : IDisposable
{
    private readonly Process process;
    private readonly TaskCompletionSource ready = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Task reading;
    private readonly Task<string> errors;
    private int? waiting;

    private WorkerProcess(Process process, int from)
    {
        this.process = process;
        Acknowledged = from;
        reading = ReadAsync();
        errors = process.StandardError.ReadToEndAsync();
    }

    /// <summary>First number of the feed that is not known to be committed.</summary>
    public int Acknowledged { get; private set; }

    public Task Ready => ready.Task;

    public static WorkerProcess Start(string data, Uri target, Feed feed, int from, ServerKind kind, bool end)
    {
        string[] arguments =
        [
            data, target.AbsoluteUri, feed.Folder, from.ToString(CultureInfo.InvariantCulture),
            kind.Rung.ToString(), kind.LongestWork.TotalMilliseconds.ToString(CultureInfo.InvariantCulture), end.ToString(),
        ];
        return new(
            Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "faults-worker.dll"), .. arguments])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!,
            from);
    }

    /// <summary>kill -9, then what it had still said.</summary>
    /// <returns>First number that is not known to be committed.</returns>
    public async Task<int> KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
        await reading;
        return Acknowledged;
    }

    /// <summary>Waits until everything is delivered or waits for a person.</summary>
    /// <returns>How many wait for a person.</returns>
    public async Task<int> EndAsync(CancellationToken cancellation)
    {
        await process.WaitForExitAsync(cancellation);
        await reading;
        return waiting ?? throw new InvalidOperationException($"The worker ended with {process.ExitCode}: {await errors}");
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill();
            process.WaitForExit();
        }

        process.Dispose();
    }

    private async Task ReadAsync()
    {
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line == "ready")
            {
                ready.TrySetResult();
            }
            else if (line.StartsWith("waiting ", StringComparison.Ordinal))
            {
                waiting = int.Parse(line["waiting ".Length..], CultureInfo.InvariantCulture);
            }
            else
            {
                // A half line is no acknowledgement, and a refusal is a defect of the harness or of the ledger.
                int.Parse(line, CultureInfo.InvariantCulture).ShouldBe(Acknowledged);
                Acknowledged++;
            }
        }

        ready.TrySetException(new InvalidOperationException("The worker ended before it was ready."));
        _ = ready.Task.Exception;
    }
}
