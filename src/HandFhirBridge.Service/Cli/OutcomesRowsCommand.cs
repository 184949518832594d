using System.CommandLine;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
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
        var view = new Argument<string>("VIEW") { Description = $"One of {string.Join(", ", StandardViews.All.Select(v => v.Name))}, or a file with a ViewDefinition (SQL on FHIR v2)." };
        var format = new Option<RowFormat>("--format") { Description = "How rows are written: csv (default), ndjson or table.", DefaultValueFactory = _ => RowFormat.Csv };
        var parquet = new Option<string?>("--parquet") { Description = "Write Parquet files below this folder instead, by site and month.", HelpName = "FOLDER" };
        var rows = new Command("rows", "Rows of a view over the gathered results, with dates and keys of charts as they are.") { view, format, parquet, config };
        rows.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var set = OutcomeFolders.Gathered(settings);
            if (set.Sources().Count == 0)
            {
                throw new RowException(RowProblems.NothingGathered.At("", $"There is nothing in {set.Folder}."));
            }

            var asked = new ViewRows(set, View(parsed.GetRequiredValue(view)));
            await CommandAudit.WriteAsync(settings, "outcomes rows", cancellation);
            if (parsed.GetValue(parquet) is { } folder)
            {
                if (Directory.Exists(Path.Combine(folder, asked.Name)))
                {
                    throw new CommandFailedException($"{Path.Combine(folder, asked.Name)} exists. Name another folder, or remove it first: old files would be read with the new ones.", ExitCode.Usage);
                }

                await terminal.Output.WriteLineAsync($"{ParquetRows.Write(asked, Path.Combine(folder, asked.Name))} rows of {asked.Name} in {folder}");
                return ExitCode.Done;
            }

            await RowPrinter.WriteAsync(parsed.GetValue(format), [.. asked.Columns.Select(c => c.Name)], asked.Read(), terminal.Output);
            return ExitCode.Done;
        });
        return rows;
    }

    private static ViewDefinition View(string name) =>
        StandardViews.Named(name)
        ?? (File.Exists(name) ? ViewDefinitionReader.Read(File.ReadAllBytes(name)) : throw new RowException(RowProblems.NoSuchView.At(
            "", $"There is no view \"{name}\" and no file of that name.", name, $"Name one of {string.Join(", ", StandardViews.All.Select(v => v.Name))}, or a file.")));
}
