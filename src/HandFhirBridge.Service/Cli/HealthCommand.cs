using System.CommandLine;
using System.Net;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>health</c>: asks the service of this machine whether it can take sessions, for container engines and supervisors.</summary>
internal static class HealthCommand
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(5);

    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var health = new Command("health", "Ask the running service of this machine whether it can take sessions.") { config };
        health.SetAction(async (parsed, cancellation) =>
            await AskAsync(Address(SettingsFile.Load(parsed.GetValue(config)).Listen), terminal, cancellation));
        return health;
    }

    /// <summary>The address to ask at: one that listens for all is asked on loopback.</summary>
    private static Uri Address(string listen)
    {
        var address = new UriBuilder(listen) { Path = "/health/ready" };
        if (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && (ip.Equals(IPAddress.Any) || ip.Equals(IPAddress.IPv6Any)))
        {
            address.Host = "127.0.0.1";
        }

        return address.Uri;
    }

    private static async Task<int> AskAsync(Uri address, CommandTerminal terminal, CancellationToken cancellation)
    {
        using var client = new HttpMessageInvoker(new SocketsHttpHandler { ConnectTimeout = Longest });
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Longest);
        try
        {
            using var answer = await client.SendAsync(request, limit.Token);
            await terminal.Output.WriteLineAsync(await answer.Content.ReadAsStringAsync(limit.Token));
            return answer.IsSuccessStatusCode ? ExitCode.Done : ExitCode.Findings;
        }
        catch (Exception silent) when (silent is HttpRequestException || (silent is OperationCanceledException && !cancellation.IsCancellationRequested))
        {
            throw new CommandFailedException($"Nothing answers at {address}. Start the service with: serve.", silent);
        }
    }
}
