using System.CommandLine;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Http;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>ledger</c>: what was accepted, where it stands and why.</summary>
internal static class LedgerCommand
{
    public static Command Create(CommandTerminal terminal) =>
        new("ledger", "What is accepted, delivered, held and why.")
        {
            List(terminal), Show(terminal), LedgerRetryCommand.Create(terminal), LedgerHoldCommand.Create(terminal), Resolve(terminal), WithdrawCommand.Create(terminal),
        };

    private static Command List(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var state = new Option<DeliveryState?>("--state") { Description = "accepted, sending, delivered, held, failed or superseded." };
        var site = new Option<string?>("--site") { Description = "Only this clinic." };
        var code = new Option<string?>("--code") { Description = "Only those with this code.", HelpName = "HFBnnnn" };
        var target = new Option<string?>("--target") { Description = "Only this target." };
        var take = new Option<int>("--take") { Description = "Most entries shown.", DefaultValueFactory = _ => 100 };
        var list = new Command("list", "Entries, oldest first, and counts.") { state, code, site, target, take, config };
        list.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = Open(parsed.GetValue(config));
            var query = new LedgerQuery
            {
                State = parsed.GetValue(state), ProblemCode = parsed.GetValue(code), Site = parsed.GetValue(site), Target = parsed.GetValue(target),
                Take = Math.Max(1, parsed.GetValue(take)),
            };
            foreach (var entry in await ledger.ListAsync(query, cancellation))
            {
                var why = entry.Reason is null ? "" : $"  {entry.ProblemCode}: {entry.Reason}";
                await terminal.Output.WriteLineAsync($"{entry.Key}  {(entry.IsWithdrawal ? "withdrawal " : "")}{Words.Of(entry.State)}  accepted {entry.AcceptedAt:yyyy-MM-dd HH:mm:ss}Z  {entry.Attempts} attempts{why}");
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
            foreach (var entry in await LedgerSession.RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))
            {
                var attempts = await ledger.ReadAttemptsAsync(entry.Key, cancellation);
                var decisions = await ledger.ReadDecisionsAsync(entry.Key, cancellation);
                await terminal.Output.WriteLineAsync(System.Text.Json.JsonSerializer.Serialize(
                    new { Entry = entry, Withdrawn = SessionWithdrawn.Of(entry, decisions), Attempts = attempts, Decisions = decisions }, JsonText.Indented));
            }

            return ExitCode.Done;
        });
        return show;
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
            var latest = (await LedgerSession.RevisionsAsync(ledger, parsed.GetRequiredValue(session), cancellation))[^1];
            var choice = new ChartChoice(parsed.GetRequiredValue(patient), Decision(parsed.GetRequiredValue(reason), parsed.GetRequiredValue(by)));
            var done = await ledger.ResolveAsync(latest.Key, choice, cancellation);
            await terminal.Output.WriteLineAsync(done
                ? $"{latest.Key} goes to Patient/{choice.PatientId}, by decision of {choice.Decision.By}; serve delivers it."
                : $"{latest.Key} is {Words.Of(latest.State)}; a chart can be chosen for held sessions only.");
            return done ? ExitCode.Done : ExitCode.Findings;
        });
        return resolve;
    }

    internal static Option<string> Required(string name, string word, string description)
    {
        var option = new Option<string>(name) { Description = description, HelpName = word, Required = true };
        option.Validators.Add(result =>
        {
            var given = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (string.IsNullOrWhiteSpace(given))
            {
                result.AddError($"{name} is empty. Write {word}.");
            }
            else if (name == "--patient" && !Hl7.Fhir.Model.Id.IsValidValue(given))
            {
                result.AddError($"{name} is \"{given}\", which is no id of a resource. Write the part behind Patient/.");
            }
        });
        return option;
    }

    internal static PersonDecision Decision(string reason, string by) => new(by.Trim(), reason.Trim(), TimeProvider.System.GetUtcNow());

    internal static Argument<string> Session() => new("SITE/ID") { Description = "Site and session id." };

    internal static SqlLedger Open(string? config) =>
        LedgerAccess.Open(SettingsFile.Load(config), TimeProvider.System);
}
