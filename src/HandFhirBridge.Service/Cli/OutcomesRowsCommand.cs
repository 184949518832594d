using System.CommandLine;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes rows</c>: rows of a view over the gathered set, of our own or of somebody's.</summary>
internal static class OutcomesRowsCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var view = new Argument<string>("VIEW") { Description = $"One of {string.Join(", ", StandardViews.Names)}, or a file with a ViewDefinition (SQL on FHIR v2)." };
        var format = new Option<RowFormat>("--format") { Description = "How rows are written: csv (default), ndjson or table.", DefaultValueFactory = _ => RowFormat.Csv };
        var parquet = new Option<string?>("--parquet") { Description = "Write Parquet files below this folder instead, by site and month.", HelpName = "FOLDER" };
        var reason = new Option<string?>("--reason") { Description = "What for; kept in the audit trail. Needed with --parquet.", HelpName = "TEXT" };
        var rows = new Command("rows", "Rows of a view over the gathered results, with dates and keys of charts as they are.") { view, format, parquet, reason, config };
        rows.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var set = OutcomeFolders.Gathered(settings);
            var asked = new ViewRows(set, View(parsed.GetRequiredValue(view)));
            var act = CommandAudit.Act("outcomes rows") with { Query = parsed.GetRequiredValue(view), Reason = parsed.GetValue(reason) };
            var leftOut = new List<Problem>();
            if (parsed.GetValue(parquet) is { } folder)
            {
                await WriteParquetAsync(settings, asked, act, folder, leftOut, terminal, cancellation);
            }
            else
            {
                await CommandAudit.WriteAsync(settings, act, cancellation);
                await CommandAudit.WriteGivenAsync(
                    settings, act, asked.Name, await RowPrinter.WriteAsync(parsed.GetValue(format), [.. asked.Columns.Select(c => c.Name)], asked.Read(leftOut), terminal.Output));
            }

            return await LeftOutRows.TellAsync(leftOut, terminal.Error) ? ExitCode.Findings : ExitCode.Done;
        });
        return rows;
    }

    // Files stay where they are put, for whoever may read the folder: somebody has to say what for.
    private static async Task WriteParquetAsync(
        BridgeSettings settings, ViewRows asked, AuditedAct act, string folder, List<Problem> leftOut, CommandTerminal terminal, CancellationToken cancellation)
    {
        if (string.IsNullOrWhiteSpace(act.Reason))
        {
            throw new CommandFailedException("Files with dates and keys of charts are written only with --reason, which the audit trail keeps. Without identities: outcomes export.", ExitCode.Usage);
        }

        var files = Path.Combine(folder, asked.Name);
        if (Directory.Exists(files))
        {
            throw new CommandFailedException($"{files} exists. Name another folder, or remove it first: old files would be read with the new ones.", ExitCode.Usage);
        }

        await CommandAudit.WriteAsync(settings, act, cancellation);
        var count = ParquetRows.Write(asked, files, leftOut);
        await CommandAudit.WriteGivenAsync(settings, act, asked.Name, count);
        await terminal.Output.WriteLineAsync($"{count} rows of {asked.Name} in {folder}");
    }

    private static ViewDefinition View(string name) =>
        StandardViews.Named(name)
        ?? (File.Exists(name) ? ViewDefinitionReader.Read(File.ReadAllBytes(name)) : throw new RowException(RowProblems.NoSuchView.At(
            "", $"There is no view \"{name}\" and no file of that name.", name, $"Name one of {string.Join(", ", StandardViews.Names)}, or a file.")));
}
