using System.CommandLine;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>ledger withdraw</c>: a session that was entered in error is withdrawn from the record.</summary>
internal static class WithdrawCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var session = LedgerCommand.Session();
        var reason = LedgerCommand.Required("--reason", "TEXT", "Why the session was entered in error; shown in the record and kept.");
        var by = LedgerCommand.Required("--by", "NAME", "Who withdraws it; shown in the record and kept.");
        var config = CommonOptions.Config();
        var withdraw = new Command(
            "withdraw", "Withdraw a session that was entered in error: all its results are marked so in the record. This cannot be undone.")
        {
            session, reason, by, config,
        };
        withdraw.SetAction(async (parsed, cancellation) =>
        {
            var (site, id) = LedgerSession.Split(parsed.GetRequiredValue(session));
            using var ledger = LedgerCommand.Open(parsed.GetValue(config));
            var done = await new Withdrawals(ledger, new BridgeParts(SettingsFile.Load(parsed.GetValue(config)), TimeProvider.System).Forms, SessionValidator.Shared, TimeProvider.System)
                .WithdrawAsync(site, id, parsed.GetRequiredValue(reason), parsed.GetRequiredValue(by), caller: null, cancellation);
            foreach (var problem in done.Problems)
            {
                ProblemText.Write(terminal.Output, problem);
            }

            if (done.Key is not { } key)
            {
                return ExitCode.Findings;
            }

            await terminal.Output.WriteLineAsync(done.IsSent
                ? $"{site}/{id} is withdrawn as revision {key.Revision}; serve tells the record."
                : $"{site}/{id} is withdrawn; nothing of it can be in a chart, so nothing is sent.");
            return ExitCode.Done;
        });
        return withdraw;
    }
}
