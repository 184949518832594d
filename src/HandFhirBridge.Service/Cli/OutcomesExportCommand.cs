using System.CommandLine;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes export</c>: rows that leave the house, one file a view: without identities, unless somebody says for whom and what for they keep them.</summary>
internal static class OutcomesExportCommand
{
    private const string RemovedFile = "removed.json";
    private const string IdentifiedFile = "identified.json";

    private const string IdentifiedStatement =
        "Identified: keys of charts, clinics, and dates of birth and of visits are as they were gathered. This is protected health information; giving it to others needs a ground (45 CFR 164.502(a)), and may have to be accounted for (164.528).";

    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var folder = new Argument<string>("FOLDER") { Description = "Folder to make; it must not exist." };
        var key = new Option<string?>("--key-file") { Description = "Key file of the project, so that a patient has the same pseudonym in every export of it (default: Outcomes:KeyFile; without one, pseudonyms of this export fit no other).", HelpName = "FILE" };
        var dates = new Option<DateRule?>("--dates") { Description = "What becomes of dates: year (default), or shifted by a secret number of days a patient, which is not safe harbor." };
        var format = new Option<ExportFormat>("--format") { Description = "csv (default) or ndjson.", DefaultValueFactory = _ => ExportFormat.Csv };
        var identified = new Option<bool>("--identified") { Description = "Keep dates and keys of charts; needs --recipient and --reason, which the audit trail keeps." };
        var recipient = new Option<string?>("--recipient") { Description = "With --identified: who gets it.", HelpName = "NAME" };
        var reason = new Option<string?>("--reason") { Description = "With --identified: what for.", HelpName = "TEXT" };
        var export = new Command("export", "Write the gathered results without identities (45 CFR 164.514(b)(2)), to be given to others.") { folder, key, dates, format, identified, recipient, reason, config };
        export.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var set = OutcomeFolders.Gathered(settings);
            var target = parsed.GetRequiredValue(folder);
            var files = new ExportFolder(set, target, parsed.GetValue(format));
            var said = new[] { parsed.GetValue(recipient), parsed.GetValue(reason) };
            string[] sentences;
            if (parsed.GetValue(identified))
            {
                if (said.Any(string.IsNullOrWhiteSpace) || parsed.GetValue(key) is not null || parsed.GetValue(dates) is not null)
                {
                    throw new CommandFailedException("--identified needs --recipient and --reason, and takes neither --key-file nor --dates: nothing is removed.", ExitCode.Usage);
                }

                var act = CommandAudit.Act("outcomes export --identified") with { Recipient = said[0], Reason = said[1] };
                sentences = await WriteIdentifiedAsync(files, settings, act, cancellation);
            }
            else
            {
                if (said.Any(s => s is not null))
                {
                    throw new CommandFailedException("--recipient and --reason go with --identified; without it no identities leave.", ExitCode.Usage);
                }

                var today = DateOnly.FromDateTime(TimeProvider.System.GetUtcNow().UtcDateTime);
                sentences = await WriteAsync(files, new(Key(parsed.GetValue(key) ?? settings.Outcomes.KeyFile), today) { Dates = parsed.GetValue(dates) ?? DateRule.Year }, cancellation);
            }

            await terminal.Output.WriteLineAsync($"{files.Rows.Values.Sum()} rows in {target}; {sentences[0]}");
            await terminal.Output.WriteLineAsync(sentences[1]);
            return await LeftOutRows.TellAsync(files.LeftOut, terminal.Error) ? ExitCode.Findings : ExitCode.Done;
        });
        return export;
    }

    private static async Task<string[]> WriteAsync(ExportFolder files, DeidentificationOptions options, CancellationToken cancellation)
    {
        var report = new RemovalReport();
        await files.WriteAsync(
            view =>
            {
                var without = new RowDeidentifier(options, report, [.. view.Columns.Select(c => c.Name)]);
                return (without.Columns, without.Row);
            },
            () => Task.FromResult<(string, object)>((RemovedFile, new
            {
                options.Statement,
                Rows = report.Given,
                Removed = report.Removed.ToDictionary(r => r.Key.ToString(), r => r.Value),
                report.Withheld,
                LeftOut = files.LeftOut.Count,
            })),
            cancellation);
        return [$"what was removed is counted in {RemovedFile} there.", options.Statement];
    }

    // Written down before the folder is there: what cannot be written down does not leave.
    private static async Task<string[]> WriteIdentifiedAsync(ExportFolder files, BridgeSettings settings, AuditedAct act, CancellationToken cancellation)
    {
        await files.WriteAsync(
            view => ([.. view.Columns.Select(c => c.Name)], row => row),
            async () =>
            {
                await CommandAudit.WriteAsync(settings, act with { Rows = files.Rows }, cancellation);
                return (IdentifiedFile, new { Statement = IdentifiedStatement, By = act.Who, act.Recipient, act.Reason, files.Rows, LeftOut = files.LeftOut.Count });
            },
            cancellation);
        return ["the audit trail says who took them.", IdentifiedStatement];
    }

    private static ProjectKey Key(string? file) => file is null ? ProjectKey.ForOnce() : ProjectKey.Read(file);
}
