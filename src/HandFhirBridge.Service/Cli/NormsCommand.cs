using System.CommandLine;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Norms;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>norms</c>: a site's own norm tables, typed twice by two people, usable when both agree.</summary>
internal static class NormsCommand
{
    public static Command Create(CommandTerminal terminal) =>
        new("norms", "Norm tables: list those at hand, enter a table of your own twice, compare both entries.")
        {
            List(terminal), Enter(terminal), Compare(terminal),
        };

    private static Command List(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var list = new Command("list", "Every norm set at hand, with its evidence and whether it scores.") { config };
        list.SetAction(parsed =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var parts = new BridgeParts(settings, TimeProvider.System);
            foreach (var set in parts.Norms.Sets)
            {
                var use = set.Evidence == Evidence.Recalled && !settings.Demonstration ? "demonstration only" : "scores";
                terminal.Output.WriteLine($"{set.Id}  version {set.Version}  {set.Cells.Length} cells  {Words.Of(set.Evidence)}  {use}  {set.Title}");
                foreach (var source in set.Cells.Select(c => c.Source).Distinct())
                {
                    terminal.Output.WriteLine($"    {source}");
                }
            }

            var directory = new NormDirectory(settings.NormsDirectory);
            foreach (var id in directory.SetIds.Where(id => directory.Compare(id, parts.Instruments)?.Value is null))
            {
                terminal.Output.WriteLine($"{id}  entered by {string.Join(" and ", directory.Entries(id).Select(e => e.EnteredBy))}  not usable yet: {(directory.Entries(id).Length < 2 ? "a second person has to enter it" : "the entries differ; run norms compare " + id)}");
            }
        });
        return list;
    }

    private static Command Enter(CommandTerminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = "CSV with the columns task, hand, sex, age_min, age_max, n, mean, sd." };
        var set = Required("--set", "Id the set shall have; letters, digits and hyphens.");
        var title = Required("--title", "Name shown beside scores.");
        var source = Required("--source", "Citation of the published table.");
        var by = Required("--by", "Who typed it.");
        var instrument = new Option<string>("--instrument") { Description = "Instrument id.", DefaultValueFactory = _ => "seven-task" };
        var config = CommonOptions.Config();
        var enter = new Command("enter", "Keep a table as one person typed it from the source.") { file, set, title, source, by, instrument, config };
        enter.SetAction(parsed =>
        {
            var id = parsed.GetRequiredValue(set);
            if (id.Length == 0 || !id.All(c => char.IsAsciiLetterOrDigit(c) || c == '-'))
            {
                throw new CommandFailedException($"The set id \"{id}\" has something other than letters, digits and hyphens.", ExitCode.Usage);
            }

            var head = new NormEntry(
                id, parsed.GetRequiredValue(instrument), parsed.GetRequiredValue(title), parsed.GetRequiredValue(source),
                parsed.GetRequiredValue(by), TimeProvider.System.GetUtcNow(), []);
            return Keep(parsed.GetRequiredValue(file), head, SettingsFile.Load(parsed.GetValue(config)), terminal);
        });
        return enter;
    }

    private static int Keep(string file, NormEntry head, BridgeSettings settings, CommandTerminal terminal)
    {
        var instrument = new BridgeParts(settings, TimeProvider.System).Instruments.All.FirstOrDefault(i => i.Id == head.Instrument)
            ?? throw new CommandFailedException($"There is no instrument \"{head.Instrument}\".", ExitCode.Usage);
        using var table = File.OpenRead(file);
        var read = NormEntryReader.Read(table, Path.GetFileName(file), head, instrument);
        if (read.Value is not { } entry)
        {
            return Print(read.Problems, terminal);
        }

        try
        {
            new NormDirectory(settings.NormsDirectory).Keep(entry);
        }
        catch (InvalidDataException refused)
        {
            throw new CommandFailedException(refused.Message, ExitCode.Findings);
        }

        terminal.Output.WriteLine($"Kept {entry.Rows.Length} cells of {entry.SetId} as typed by {entry.EnteredBy}. It scores once a second person has typed it too and norms compare finds no difference.");
        return ExitCode.Done;
    }

    private static Command Compare(CommandTerminal terminal)
    {
        var set = new Argument<string>("SET") { Description = "Id of the set." };
        var config = CommonOptions.Config();
        var compare = new Command("compare", "Compare both entries of a set, cell by cell.") { set, config };
        compare.SetAction(parsed =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var id = parsed.GetRequiredValue(set);
            var directory = new NormDirectory(settings.NormsDirectory);
            var outcome = directory.Compare(id, new BridgeParts(settings, TimeProvider.System).Instruments)
                ?? throw new CommandFailedException(
                    $"{directory.Entries(id).Length} of two entries of {id} are here. Enter it with: norms enter FILE --set {id} --title … --source … --by …", ExitCode.Findings);
            if (outcome.Value is null)
            {
                return Print(outcome.Problems, terminal);
            }

            terminal.Output.WriteLine($"Both entries of {id} agree in all {outcome.Value.Cells.Length} cells. The set scores.");
            return ExitCode.Done;
        });
        return compare;
    }

    private static int Print(IEnumerable<Problem> problems, CommandTerminal terminal)
    {
        foreach (var problem in problems)
        {
            ProblemText.Write(terminal.Output, problem);
        }

        return ExitCode.Findings;
    }

    private static Option<string> Required(string name, string description) => new(name) { Description = description, Required = true };
}
