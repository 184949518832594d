using System.CommandLine;
using System.Text.Json;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes summary</c>: how groups do, with small groups held back.</summary>
internal static class OutcomesSummaryCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var names = string.Join(", ", SummaryAsking.Dimensions.Keys);
        var by = new Option<string[]>("--by") { Description = $"What groups are told apart by, with commas between: {names} (default: task,hand-role).", HelpName = "NAMES" };
        var where = new Option<string[]>("--where") { Description = "Only results with this value, such as task=writing; may be given several times.", HelpName = "NAME=VALUE" };
        var smallest = new Option<int?>("--smallest-group") { Description = $"Fewest persons of a group that is shown (default as Outcomes:SmallestGroup says, {SummaryQuestion.DefaultSmallestGroup})." };
        var format = new Option<SummaryFormat>("--format") { Description = "text (default), csv (the groups), csv-changes (the changes), json.", DefaultValueFactory = _ => SummaryFormat.Text };
        var summary = new Command("summary", "How groups do: counts, times, z and change, of what was gathered. Holds no patient's data.") { by, where, smallest, format, config };
        summary.SetAction(async (parsed, _) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var told = parsed.GetValue(by) is { Length: > 0 } asked ? asked : [.. SummaryAsking.Usual.Select(SummaryAsking.NameOf)];
            var question = SummaryAsking.Question(told, parsed.GetValue(where) ?? [], parsed.GetValue(smallest) ?? settings.Outcomes.SmallestGroup, new BridgeParts(settings, TimeProvider.System).MeasurementErrors);
            if (question.Value is not { } clear)
            {
                throw new CommandFailedException($"{question.Problems[0].Message} {question.Problems[0].Remedy}", ExitCode.Usage);
            }

            await WriteAsync(SummaryAsking.Ask(settings, clear), parsed.GetValue(format), terminal.Output);
            return ExitCode.Done;
        });
        return summary;
    }

    private static async Task WriteAsync(OutcomeSummary summary, SummaryFormat format, TextWriter output)
    {
        var (groups, changes) = (SummaryTables.GroupColumns(summary.Question), SummaryTables.ChangeColumns(summary.Question));
        switch (format)
        {
            case SummaryFormat.Json:
                await output.WriteLineAsync(JsonSerializer.Serialize(SummaryJson.Of(summary), JsonText.Indented));
                break;
            case SummaryFormat.Csv:
                await RowPrinter.WriteAsync(RowFormat.Csv, groups, SummaryTables.Groups(summary), output);
                break;
            case SummaryFormat.CsvChanges:
                await RowPrinter.WriteAsync(RowFormat.Csv, changes, SummaryTables.Changes(summary), output);
                break;
            default:
                await RowPrinter.WriteAsync(RowFormat.Table, groups, SummaryTables.Groups(summary), output);
                if (SummaryTables.Changes(summary).ToList() is { Count: > 0 } rows)
                {
                    await output.WriteLineAsync();
                    await RowPrinter.WriteAsync(RowFormat.Table, changes, rows, output);
                }

                await output.WriteLineAsync();
                foreach (var note in SummaryTables.Notes(summary))
                {
                    await output.WriteLineAsync(note);
                }

                break;
        }
    }
}
