using System.CommandLine;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>gather</c>: reads the results that lie in the targets into one set, and makes rows of it.</summary>
internal static class GatherCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var targets = new Option<string[]>("--target") { Description = "Gather from this target alone; may be given several times (default: all).", HelpName = "NAME" };
        var full = new Option<bool>("--full") { Description = "Ask for everything anew instead of what changed, so that what was deleted goes here as well." };
        var search = new Option<bool>("--search") { Description = "Search page by page even where a server offers an export." };
        var gather = new Command("gather", "Read results from all targets into one set, for outcomes.") { targets, full, search, config };
        gather.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var options = new GatherOptions { Full = parsed.GetValue(full), SearchOnly = parsed.GetValue(search) };
            return await RunAsync(settings, Chosen(settings, parsed.GetValue(targets) ?? []), options, terminal, cancellation);
        });
        return gather;
    }

    private static List<TargetSettings> Chosen(BridgeSettings settings, string[] names)
    {
        var all = settings.Targets.Prepend(settings.Target).ToList();
        foreach (var name in names.Where(n => all.All(t => t.Name != n)))
        {
            throw new CommandFailedException($"There is no target \"{name}\". Those in the settings are: {string.Join(", ", all.Select(t => t.Name))}.", ExitCode.Usage);
        }

        return [.. all.Where(t => names.Length == 0 || names.Contains(t.Name))];
    }

    private static async Task<int> RunAsync(
        BridgeSettings settings, List<TargetSettings> targets, GatherOptions options, CommandTerminal terminal, CancellationToken cancellation)
    {
        var set = OutcomeFolders.Gathered(settings);
        var line = new GatherLine(Progress.On(terminal.Error));
        await using var sources = await GatherSources.OpenAsync(settings, targets, cancellation);
        var results = await new Gatherer(set, options, TimeProvider.System).GatherAsync(sources.All, line, cancellation);
        line.Clear();
        foreach (var result in results)
        {
            await terminal.Output.WriteLineAsync(result.Problem is { } problem
                ? $"{result.Source}: failed. {problem.Code}: {problem.Message} {problem.Remedy}"
                : $"{result.Source}: {result.Read} new or changed by {result.Method}; held: {string.Join(", ", result.Held.Select(h => $"{h.Value} {h.Key}"))}");
            foreach (var note in result.Notes)
            {
                await terminal.Output.WriteLineAsync($"{result.Source}: {note}.");
            }
        }

        if (set.Sources().Count == 0)
        {
            return ExitCode.Findings;
        }

        var rows = OutcomeFolders.Rows(settings);
        var counts = rows.Refresh(set, StandardViews.All);
        await terminal.Output.WriteLineAsync(counts.IsEmpty ? "rows: unchanged" : $"rows: {string.Join(", ", counts.Select(r => $"{r.Value} {r.Key}"))}");
        var leftOut = await LeftOutRows.TellAsync(rows, terminal.Output);
        return results.All(r => r.Problem is null) && !leftOut ? ExitCode.Done : ExitCode.Findings;
    }
}
