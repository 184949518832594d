using System.Diagnostics;
using System.Text;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>One run of the built program to its end, its output in pipes as a script would read it.</summary>
internal sealed record CommandRun(int ExitCode, string Output, string Error)
{
    /// <summary>Ends a command that hangs; no measure of speed, so that a busy machine fails no test.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(5);

    /// <summary>Standard output, every line a JSON object.</summary>
    public IReadOnlyList<JsonNode> JsonLines() =>
        [.. Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!)];

    public static Task<CommandRun> StartAsync(string workingDirectory, params string[] arguments) =>
        StartAsync(workingDirectory, [], arguments);

    /// <param name="workingDirectory">Where it runs; settings and data are looked for there.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="arguments">Words after the program's name.</param>
    public static async Task<CommandRun> StartAsync(string workingDirectory, byte[] input, params string[] arguments)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        limit.CancelAfter(Limit);
        using var process = Process.Start(Pipes(workingDirectory, arguments))!;
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(limit.Token);
            var error = process.StandardError.ReadToEndAsync(limit.Token);
            await FeedAsync(process, input, limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return new CommandRun(process.ExitCode, await output, await error);
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    private static ProcessStartInfo Pipes(string workingDirectory, string[] arguments) =>
        new("dotnet", [Repository.ServiceProgram, .. arguments])
        {
            WorkingDirectory = workingDirectory,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };

    private static async Task FeedAsync(Process process, byte[] input, CancellationToken cancellation)
    {
        try
        {
            await process.StandardInput.BaseStream.WriteAsync(input, cancellation);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            // A command that refuses its arguments does not wait for the input.
        }
    }
}
