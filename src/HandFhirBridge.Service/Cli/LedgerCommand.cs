using System.CommandLine;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>ledger</c>: what was accepted, where it stands and why.</summary>
internal static class LedgerCommand
{
    public static Command Create(CommandTerminal terminal) =>
        new("ledger", "What is accepted, delivered, held and why.") { List(terminal), Show(terminal), Retry(terminal), Resolve(terminal) };

    private static Command List(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var state = new Option<DeliveryState?>("--state") { Description = "accepted, sending, delivered, held, failed or superseded." };
        var site = new Option<string?>("--site") { Description = "Only this clinic." };
        var take = new Option<int>("--take") { Description = "Most entries shown.", DefaultValueFactory = _ => 100 };
        var list = new Command("list", "Entries, oldest first, and counts.") { state, site, take, config };
        list.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = Open(parsed.GetValue(config));
            var query = new LedgerQuery { State = parsed.GetValue(state), Site = parsed.GetValue(site), Take = Math.Max(1, parsed.GetValue(take)) };
            foreach (var entry in await ledger.ListAsync(query, cancellation))
            {
                var why = entry.Reason is null ? "" : $"  {entry.ProblemCode}: {entry.Reason}";
                await terminal.Output.WriteLineAsync($"{entry.Key}  {Words.Of(entry.State)}  accepted {entry.AcceptedAt:yyyy-MM-dd HH:mm:ss}Z  {entry.Attempts} attempts{why}");
            }

            var counts = await ledger.CountAsync(cancellation);
            await terminal.Output.WriteLineAsync(string.Join(", ", counts.ByState.Where(c => c.Value > 0).OrderBy(c => c.Key).Select(c => $"{c.Value} {Words.Of(c.Key)}")) is { Length: > 0 } text ? text + "." : "The ledger is empty.");
            if (counts.OldestUnsent is { } oldest)
            {
                await terminal.Output.WriteLineAsync($"Oldest not delivered: accepted {oldest:yyyy-MM-dd HH:mm:ss}Z.");
            }

            return ExitCode.Done;
        });
        return list;
    }

    private static Command Show(CommandTerminal terminal)
    {
        var session = Session();
        var config = CommonOptions.Config();
        var show = new Command("show", "One session with every attempt and the server's answers.") { session, config };
        show.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = Open(parsed.GetValue(config));
            foreach (var entry in await RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))
            {
                var attempts = await ledger.ReadAttemptsAsync(entry.Key, cancellation);
                var decisions = await ledger.ReadDecisionsAsync(entry.Key, cancellation);
                await terminal.Output.WriteLineAsync(System.Text.Json.JsonSerializer.Serialize(
                    new { Entry = entry, Attempts = attempts, Decisions = decisions }, JsonText.Indented));
            }

            return ExitCode.Done;
        });
        return show;
    }

    private static Command Retry(CommandTerminal terminal)
    {
        var session = Session();
        var config = CommonOptions.Config();
        var retry = new Command("retry", "Put a held or failed session in line again, after its cause was mended.") { session, config };
        retry.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = Open(parsed.GetValue(config));
            var latest = (await RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))[^1];
            var done = await ledger.RetryAsync(latest.Key, cancellation);
            await terminal.Output.WriteLineAsync(done
                ? $"{latest.Key} is in line again; serve delivers it."
                : $"{latest.Key} is {Words.Of(latest.State)}; only held and failed sessions can be tried again.");
            return done ? ExitCode.Done : ExitCode.Findings;
        });
        return retry;
    }

    private static Command Resolve(CommandTerminal terminal)
    {
        var session = Session();
        var patient = Required("--patient", "ID", "Id of the chart at the target that the session belongs to.");
        var reason = Required("--reason", "TEXT", "Why this chart is the right one; kept with the session.");
        var by = Required("--by", "NAME", "Who decides; kept with the session.");
        var config = CommonOptions.Config();
        var resolve = new Command("resolve", "Choose the chart of a held session; who chose and why is kept. The chart is looked up anew before anything is sent.")
        {
            session, patient, reason, by, config,
        };
        resolve.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = Open(parsed.GetValue(config));
            var latest = (await RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))[^1];
            var choice = new ChartChoice(
                parsed.GetRequiredValue(patient), parsed.GetRequiredValue(reason).Trim(), parsed.GetRequiredValue(by).Trim(), TimeProvider.System.GetUtcNow());
            var done = await ledger.ResolveAsync(latest.Key, choice, cancellation);
            await terminal.Output.WriteLineAsync(done
                ? $"{latest.Key} goes to Patient/{choice.PatientId}, by decision of {choice.By}; serve delivers it."
                : $"{latest.Key} is {Words.Of(latest.State)}; a chart can be chosen for held sessions only.");
            return done ? ExitCode.Done : ExitCode.Findings;
        });
        return resolve;
    }

    private static Option<string> Required(string name, string word, string description)
    {
        var option = new Option<string>(name) { Description = description, HelpName = word, Required = true };
        option.Validators.Add(result =>
        {
            var given = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (string.IsNullOrWhiteSpace(given))
            {
                result.AddError($"{name} is empty. Write {word}.");
            }
            else if (name == "--patient" && !given.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.'))
            {
                result.AddError($"{name} is \"{given}\", which is no id of a resource. Write the part behind Patient/.");
            }
        });
        return option;
    }

    private static Argument<string> Session() => new("SITE/ID") { Description = "Site and session id." };

    private static SqlLedger Open(string? config) =>
        LedgerAccess.Open(SettingsFile.Load(config), TimeProvider.System);

    private static async Task<IReadOnlyList<LedgerEntry>> RevisionsAsync(SqlLedger ledger, string session, CancellationToken cancellation)
    {
        var entries = session.Split('/') is [var site, var id]
            ? await ledger.ListAsync(new LedgerQuery { Site = site, SessionId = id }, cancellation)
            : throw new CommandFailedException($"\"{session}\" is not SITE/ID.", ExitCode.Usage);
        return entries.Length > 0
            ? [.. entries.OrderBy(e => e.Key.Revision)]
            : throw new CommandFailedException($"The ledger holds no session {session}. List what it holds with: ledger list.", ExitCode.Findings);
    }
}
