using System.CommandLine;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>ledger hold</c>: a session that waits is stopped until a person retries it.</summary>
internal static class LedgerHoldCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var session = LedgerCommand.Session();
        var reason = LedgerCommand.Required("--reason", "TEXT", "Why it must not be sent for now; kept with the session.");
        var by = LedgerCommand.Required("--by", "NAME", "Who stops it; kept with the session.");
        var config = CommonOptions.Config();
        var hold = new Command("hold", "Stop a session that waits to be sent; retry lets it go.") { session, reason, by, config };
        hold.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = LedgerCommand.Open(parsed.GetValue(config));
            var latest = (await LedgerSession.RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))[^1];
            var done = await ledger.HoldAsync(latest.Key, LedgerCommand.Decision(parsed.GetRequiredValue(reason), parsed.GetRequiredValue(by)), cancellation);
            await terminal.Output.WriteLineAsync(done
                ? $"{latest.Key} is held; it is not sent until it is retried."
                : $"{latest.Key} is {Words.Of(latest.State)}; only sessions that wait to be sent can be held.");
            return done ? ExitCode.Done : ExitCode.Findings;
        });
        return hold;
    }
}
