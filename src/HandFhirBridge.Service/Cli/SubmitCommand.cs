using System.CommandLine;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Submission;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>submit</c>: puts sessions into the ledger and, unless told otherwise, waits until they are delivered.</summary>
internal static class SubmitCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var paths = CommonOptions.Paths();
        var config = CommonOptions.Config();
        var demonstration = CommonOptions.Demonstration();
        var rejects = new Option<string>("--rejects") { Description = "Folder for what was refused, to be corrected and handed in again.", HelpName = "FOLDER", DefaultValueFactory = _ => "rejects" };
        var queue = new Option<bool>("--queue-only") { Description = "Commit to the ledger and leave delivery to serve." };
        var submit = new Command("submit", "Put sessions into the ledger and deliver them.") { paths, config, demonstration, rejects, queue };
        submit.SetAction(async (parsed, cancellation) =>
        {
            CommonOptions.DemandExisting(parsed.GetRequiredValue(paths));
            var settings = SettingsFile.Load(parsed.GetValue(config));
            settings.Demonstration |= parsed.GetValue(demonstration);
            return await RunAsync(parsed.GetRequiredValue(paths), parsed.GetRequiredValue(rejects), parsed.GetValue(queue), settings, terminal, cancellation);
        });
        return submit;
    }

    private static async Task<int> RunAsync(
        string[] paths, string rejects, bool queueOnly, BridgeSettings settings, CommandTerminal terminal, CancellationToken cancellation)
    {
        var progress = Progress.On(terminal.Error);
        SubmissionCounts counts;
        using (var ledger = LedgerAccess.Open(settings, TimeProvider.System))
        {
            counts = await new Submitter(new BridgeParts(settings, TimeProvider.System), ledger)
                .SubmitAsync(paths, terminal, rejects, progress, cancellation);
        }

        progress.Clear();
        await terminal.Output.WriteLineAsync(counts.ToString());
        if (!queueOnly && counts.Keys.Count > 0)
        {
            var delivered = await DeliveryWait.RunAsync(settings, counts.Keys, progress, cancellation);
            progress.Clear();
            await terminal.Output.WriteLineAsync(delivered.ToString());
            return counts.Rejected == 0 && delivered.Waiting == 0 && delivered.Open == 0 ? ExitCode.Done : ExitCode.Findings;
        }

        return counts.Rejected == 0 ? ExitCode.Done : ExitCode.Findings;
    }
}
