using System.CommandLine;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>config check</c>: every setting that is wrong or missing, before the service is started; on request, what the targets answer.</summary>
internal static class ConfigCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var demonstration = CommonOptions.Demonstration();
        var connect = new Option<bool>("--connect")
        {
            Description = "Also sign in to each target, read its capabilities and search for a patient nobody is. Nothing is written.",
        };
        var check = new Command("check", "Name every setting that is wrong or missing; nothing is started or changed.") { config, demonstration, connect };
        check.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Read(parsed.GetValue(config));
            settings.Demonstration |= parsed.GetValue(demonstration);
            return await CheckAsync(settings, parsed.GetValue(connect), terminal, cancellation);
        });
        return new Command("config", "The settings.") { check };
    }

    private static async Task<int> CheckAsync(BridgeSettings settings, bool connect, CommandTerminal terminal, CancellationToken cancellation)
    {
        var wrong = SettingsCheck.Find(settings).Concat(SettingsCheck.ToServe(settings)).ToList();
        foreach (var sentence in wrong)
        {
            await terminal.Output.WriteLineAsync(sentence);
        }

        if (wrong.Count > 0)
        {
            await terminal.Output.WriteLineAsync($"{wrong.Count} to correct; the service does not start like this.");
            return ExitCode.Findings;
        }

        foreach (var line in Summary(settings))
        {
            await terminal.Output.WriteLineAsync(line);
        }

        return !connect || await ConnectAsync(settings, terminal, cancellation) ? ExitCode.Done : ExitCode.Findings;
    }

    private static IEnumerable<string> Summary(BridgeSettings settings)
    {
        yield return "The settings are complete and fit together.";
        yield return $"  listens on   {settings.Listen}";
        yield return $"  callers      {Callers(settings)}";
        yield return $"  data         {Path.GetFullPath(settings.DataDirectory)}";
        yield return $"  ledger       {(settings.Ledger.IsShared ? "PostgreSQL, shared by instances" : "SQLite, one process")}";
        yield return $"  norms        {(settings.Demonstration ? "DEMONSTRATION: norms from memory score; never for patients" : "published norms, and those the site entered twice")}";
        foreach (var target in settings.Targets.Prepend(settings.Target))
        {
            yield return $"  target       {target.Name}: {target.BaseUrl ?? "embedded record"}, sign-in {Words.Of(target.SignIn.Method)}";
        }

        yield return settings.Sites.Count == 0
            ? "  sites        none listed: sessions of any site are taken"
            : $"  sites        {string.Join(", ", settings.Sites.Select(site => $"{site.Id} to {site.Target}"))}";
    }

    private static string Callers(BridgeSettings settings)
    {
        string?[] ways =
        [
            settings.Security.Authority is { } authority ? $"tokens of {authority}" : null,
            settings.Security.KeyFile is { } file ? $"machine keys in {file}" : null,
        ];
        return settings.Security.AnySignIn ? string.Join(", ", ways.OfType<string>()) : "anyone on this machine (demonstration)";
    }

    private static async Task<bool> ConnectAsync(BridgeSettings settings, CommandTerminal terminal, CancellationToken cancellation)
    {
        var all = true;
        await foreach (var (isGood, line) in TargetProbe.AskAsync(settings, cancellation))
        {
            all &= isGood;
            await terminal.Output.WriteLineAsync(line);
        }

        return all;
    }
}
