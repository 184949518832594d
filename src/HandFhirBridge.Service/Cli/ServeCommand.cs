using System.CommandLine;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>serve</c>: the HTTP API and delivery, until stopped.</summary>
internal static class ServeCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var demonstration = CommonOptions.Demonstration();
        var serve = new Command("serve", "Run the HTTP API and deliver, until stopped.") { config, demonstration };
        serve.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            settings.Demonstration |= parsed.GetValue(demonstration);
            return await RunAsync(settings, terminal, cancellation);
        });
        return serve;
    }

    private static async Task<int> RunAsync(BridgeSettings settings, CommandTerminal terminal, CancellationToken cancellation)
    {
        if (SettingsCheck.ToServe(settings).ToList() is { Count: > 0 } wrong)
        {
            throw new CommandFailedException(string.Join(Environment.NewLine, wrong));
        }

        await using var host = await BridgeHost.StartAsync(settings, listen: true, cancellation);
        await terminal.Output.WriteLineAsync($"Listening on {string.Join(", ", host.Addresses)}; delivering to {host.Target}. Ctrl-C stops.");
        await host.WaitAsync(cancellation);
        return ExitCode.Done;
    }
}
