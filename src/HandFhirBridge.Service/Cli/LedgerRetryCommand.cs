using System.CommandLine;
using System.Globalization;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Operations;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>ledger retry</c>: one session, or every one that matches, spread in time.</summary>
internal static class LedgerRetryCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var session = new Argument<string?>("SITE/ID") { Description = "Site and session id; left out, every session that matches is retried.", Arity = ArgumentArity.ZeroOrOne };
        var all = new Option<bool>("--all") { Description = "Retry all that are held or failed; needed where no filter is given." };
        var state = new Option<string?>("--state") { Description = "Only held, or only failed ones." };
        state.AcceptOnlyFromAmong("held", "failed");
        var code = new Option<string?>("--code") { Description = "Only those that wait for this code.", HelpName = "HFBnnnn" };
        var site = new Option<string?>("--site") { Description = "Only this clinic." };
        var target = new Option<string?>("--target") { Description = "Only this target." };
        var over = Over();
        var reason = LedgerCommand.Required("--reason", "TEXT", "Why, for example what was mended; kept with each session.");
        var by = LedgerCommand.Required("--by", "NAME", "Who decides; kept with each session.");
        var config = CommonOptions.Config();
        var retry = new Command("retry", "Put held or failed sessions in line again, after their cause was mended.")
        {
            session, all, state, code, site, target, over, reason, by, config,
        };
        retry.SetAction(async (parsed, cancellation) =>
        {
            using var ledger = LedgerCommand.Open(parsed.GetValue(config));
            var decision = LedgerCommand.Decision(parsed.GetRequiredValue(reason), parsed.GetRequiredValue(by));
            var query = new LedgerQuery
            {
                State = parsed.GetValue(state) is { } word ? Enum.Parse<DeliveryState>(word, ignoreCase: true) : null,
                ProblemCode = parsed.GetValue(code),
                Site = parsed.GetValue(site),
                Target = parsed.GetValue(target),
            };
            var filtered = query != new LedgerQuery();
            var span = parsed.GetValue(over);
            return (parsed.GetValue(session), filtered || parsed.GetValue(all)) switch
            {
                ({ } one, false) when span is null => await OneAsync(ledger, one, decision, terminal, cancellation),
                (null, true) => await AllAsync(ledger, query, SpanText.Read(span ?? "0s")!.Value, decision, terminal, cancellation),
                (null, false) => throw new CommandFailedException("Name SITE/ID, a filter (--state, --code, --site, --target), or --all.", ExitCode.Usage),
                _ => throw new CommandFailedException("SITE/ID names one session; filters, --all and --over are for many. Give one or the other.", ExitCode.Usage),
            };
        });
        return retry;
    }

    private static Option<string?> Over()
    {
        var over = new Option<string?>("--over") { Description = "Time over which they fall due, evenly, oldest first: 90s, 30m, 2h; at most 7d.", HelpName = "SPAN" };
        over.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && SpanText.Read(result.Tokens[0].Value) is null)
            {
                result.AddError($"--over is \"{result.Tokens[0].Value}\". {SpanText.Remedy}");
            }
        });
        return over;
    }

    private static async Task<int> OneAsync(SqlLedger ledger, string session, PersonDecision decision, CommandTerminal terminal, CancellationToken cancellation)
    {
        var latest = (await LedgerSession.RevisionsAsync(ledger, session, cancellation))[^1];
        var done = await ledger.RetryAsync(latest.Key, decision, cancellation);
        await terminal.Output.WriteLineAsync(done
            ? $"{latest.Key} is in line again; serve delivers it."
            : $"{latest.Key} is {Words.Of(latest.State)}; only held and failed sessions can be tried again.");
        return done ? ExitCode.Done : ExitCode.Findings;
    }

    private static async Task<int> AllAsync(
        SqlLedger ledger, LedgerQuery query, TimeSpan over, PersonDecision decision, CommandTerminal terminal, CancellationToken cancellation)
    {
        var batch = await ledger.RetryAllAsync(query, over, decision, cancellation);
        await terminal.Output.WriteLineAsync(batch is { First: { } first, Last: { } last }
            ? string.Create(CultureInfo.InvariantCulture, $"{batch.Entries} sessions are in line again, due from {first:yyyy-MM-dd HH:mm:ss}Z to {last:yyyy-MM-dd HH:mm:ss}Z; serve delivers them.")
            : "No held or failed session matches.");
        if (query.ProblemCode is null)
        {
            await terminal.Output.WriteLineAsync($"Left alone unless named by --code: {string.Join(", ", BulkRetry.OneByOne)}.");
        }

        return batch.Entries > 0 ? ExitCode.Done : ExitCode.Findings;
    }
}
