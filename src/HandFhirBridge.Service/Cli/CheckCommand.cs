using System.CommandLine;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Intake;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports.Printing;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>check</c>: what would be sent, and every problem. Stores and sends nothing.</summary>
internal static class CheckCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var paths = CommonOptions.Paths();
        var format = new Option<CheckFormat>("--format") { Description = "text, json (a line a session) or outcome (a FHIR OperationOutcome).", HelpName = "text|json|outcome" };
        var config = CommonOptions.Config();
        var demonstration = CommonOptions.Demonstration();
        var check = new Command("check", "Show what would be sent and every problem, without sending.") { paths, format, config, demonstration };
        check.SetAction(async (parsed, cancellation) =>
        {
            CommonOptions.DemandExisting(parsed.GetRequiredValue(paths));
            var settings = SettingsFile.Load(parsed.GetValue(config));
            settings.Demonstration |= parsed.GetValue(demonstration);
            return await RunAsync(parsed.GetRequiredValue(paths), parsed.GetValue(format), settings, terminal, cancellation);
        });
        return check;
    }

    private static async Task<int> RunAsync(
        string[] paths, CheckFormat format, BridgeSettings settings, CommandTerminal terminal, CancellationToken cancellation)
    {
        // The last steps of the first session take longest: they are made ready while another processor reads, scores and maps it.
        _ = Task.Run(MakeReady, cancellation);
        var parts = new BridgeParts(settings, TimeProvider.System);
        var pipeline = parts.Pipeline();
        var printer = CheckPrinter.For(format, terminal.Output);
        var progress = Progress.On(terminal.Error);
        var (count, refused) = (0, 0);
        await foreach (var item in new SessionSources(parts.Reader).ReadAsync(paths, terminal.InputStream, cancellation))
        {
            var prepared = pipeline.Prepare(item.Outcome);
            printer.Print(item.Place, prepared);
            count++;
            refused += prepared.Problems.Any(p => p.Severity == Severity.Error) ? 1 : 0;
            progress.Show($"{count} checked, {refused} refused");
        }

        progress.Clear();
        printer.End(count, refused);
        return refused == 0 ? ExitCode.Done : ExitCode.Findings;
    }

    private static void MakeReady()
    {
        _ = SessionValidator.Shared;
        PdfReport.WarmUp();
    }
}
