using System.CommandLine;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes export</c>: rows that may leave the house, one file a view, with what was removed beside them.</summary>
internal static class OutcomesExportCommand
{
    private const string ReportFile = "removed.json";

    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var folder = new Argument<string>("FOLDER") { Description = "Folder to make; it must not exist." };
        var key = new Option<string?>("--key-file") { Description = "Key file of the project, so that a patient has the same pseudonym in every export of it (default: Outcomes:KeyFile; without one, pseudonyms of this export fit no other).", HelpName = "FILE" };
        var dates = new Option<DateRule>("--dates") { Description = "What becomes of dates: year (default), or shifted by a secret number of days a patient, which is not safe harbor.", DefaultValueFactory = _ => DateRule.Year };
        var format = new Option<ExportFormat>("--format") { Description = "csv (default) or ndjson.", DefaultValueFactory = _ => ExportFormat.Csv };
        var export = new Command("export", "Write the gathered results without identities (45 CFR 164.514(b)(2)), to be given to others.") { folder, key, dates, format, config };
        export.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var set = OutcomeFolders.Gathered(settings);
            var target = parsed.GetRequiredValue(folder);
            if (set.Sources().Count == 0)
            {
                throw new RowException(RowProblems.NothingGathered.At("", $"There is nothing in {set.Folder}."));
            }

            if (Path.Exists(target))
            {
                throw new CommandFailedException($"{target} exists. Name another folder, or remove it first: what was exported before would lie among it.", ExitCode.Usage);
            }

            var options = new DeidentificationOptions(Key(parsed.GetValue(key) ?? settings.Outcomes.KeyFile), DateOnly.FromDateTime(TimeProvider.System.GetUtcNow().UtcDateTime)) { Dates = parsed.GetValue(dates) };
            var report = new RemovalReport();
            await WriteAsync(set, target, parsed.GetValue(format), options, report, cancellation);
            await terminal.Output.WriteLineAsync($"{report.Given} rows in {target}; what was removed is counted in {Path.Combine(target, ReportFile)}.");
            await terminal.Output.WriteLineAsync(options.Statement);
            return ExitCode.Done;
        });
        return export;
    }

    private static ProjectKey Key(string? file)
    {
        try
        {
            return file is null ? ProjectKey.ForOnce() : ProjectKey.Read(file);
        }
        catch (DeidentificationException wrong)
        {
            throw new CommandFailedException($"{wrong.Problem.Code}: {wrong.Problem.Message} {wrong.Problem.Remedy}", ExitCode.Environment);
        }
    }

    // Written aside and put in place at once: nobody takes half an export for a whole one.
    private static async Task WriteAsync(GatheredSet set, string target, ExportFormat format, DeidentificationOptions options, RemovalReport report, CancellationToken cancellation)
    {
        var aside = Path.TrimEndingDirectorySeparator(target) + ".new";
        if (Directory.Exists(aside))
        {
            Directory.Delete(aside, recursive: true);
        }

        Directory.CreateDirectory(aside);
        foreach (var view in StandardViews.All)
        {
            var rows = new ViewRows(set, view);
            var without = new RowDeidentifier(options, report, [.. rows.Columns.Select(c => c.Name)]);
            await using var file = File.CreateText(Path.Combine(aside, $"{view.Name}.{(format == ExportFormat.Csv ? "csv" : "ndjson")}"));
            var given = rows.Read().Select(row => { cancellation.ThrowIfCancellationRequested(); return without.Row(row); });
            _ = format == ExportFormat.Csv ? RowText.WriteCsv(without.Columns, given, file) : RowText.WriteNdjson(without.Columns, given, file);
        }

        await File.WriteAllTextAsync(Path.Combine(aside, ReportFile), JsonSerializer.Serialize(new
        {
            options.Statement,
            Rows = report.Given,
            Removed = report.Removed.ToDictionary(r => r.Key.ToString(), r => r.Value),
            report.Withheld,
        }, JsonText.Indented), cancellation);
        Directory.Move(aside, target);
    }
}
