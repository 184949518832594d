using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>targets show</c>: what is known of the servers results go to, and by which rung they are written.</summary>
internal static class TargetsCommand
{
    private static readonly string[] Written = ["Device", "DiagnosticReport", "DocumentReference", "Observation", "Patient", "Provenance", "QuestionnaireResponse"];

    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var json = new Option<bool>("--json") { Description = "As JSON, for programs." };
        var show = new Command("show", "Capabilities, the rung in use and since when, the last fall and its cause, sign-in.") { json, config };
        show.SetAction(async (parsed, _) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var views = settings.Targets.Prepend(settings.Target).Select(target => View(settings, target)).ToList();
            await terminal.Output.WriteLineAsync(parsed.GetValue(json)
                ? JsonSerializer.Serialize(views, JsonText.Indented)
                : string.Join(Environment.NewLine, views.SelectMany(Lines)));
            return ExitCode.Done;
        });
        return new Command("targets", "The servers results go to.") { show, Keys(terminal) };
    }

    private static Command Keys(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var keys = new Command("jwks", "Public halves of the keys the service signs in with (RFC 7517), to be registered at the authorization server.") { config };
        keys.SetAction(async (parsed, _) =>
        {
            var folders = PublicKeys.Folders(SettingsFile.Load(parsed.GetValue(config)));
            if (folders.Count == 0)
            {
                throw new CommandFailedException("No target has SignIn:Method BackendServices, so there are no keys to publish. See docs/integration/sign-in.md.");
            }

            await terminal.Output.WriteLineAsync(JsonSerializer.Serialize(PublicKeys.Of(folders), JsonText.Indented));
            return ExitCode.Done;
        });
        return keys;
    }

    private static TargetView View(BridgeSettings settings, TargetSettings target)
    {
        var baseUrl = target.BaseUrl is { } url ? new Uri(url.TrimEnd('/') + "/") : null;
        var known = new TargetKnowledgeFile(settings.TargetsDirectory).Load(target.Name, baseUrl);
        return new(
            target.Name,
            baseUrl ?? known?.BaseUrl,
            target.SignIn.Method,
            target.SignIn.ClientCertificatePath is not null,
            target.OnDifference,
            known?.Capabilities,
            known?.Rung,
            known?.LastFall);
    }

    private static IEnumerable<string> Lines(TargetView view)
    {
        yield return $"{view.Name}  {view.BaseUrl?.ToString() ?? "embedded record"}";
        yield return $"  sign-in       {Words.Of(view.SignIn)}{(view.MutualTls ? ", with a client certificate" : "")}";
        yield return $"  capabilities  {Capabilities(view.Capabilities)}";
        yield return view.Rung is { } rung
            ? $"  rung          {Name(rung.Rung)}, since {Time(rung.Since)}"
            : "  rung          not yet found out; the next delivery finds it";
        yield return view.LastFall is { } fall
            ? $"  last fall     from {Name(fall.From)} to {Name(fall.To)} at {Time(fall.At)}: {fall.Because}"
            : "  last fall     none";
        yield return $"  differences   {(view.OnDifference == DifferenceAction.Hold ? "hold the session" : "are recorded")}";
        foreach (var (type, declared) in (view.Capabilities?.Resources ?? ImmutableDictionary<string, ResourceCapability>.Empty).OrderBy(r => r.Key, StringComparer.Ordinal).Where(r => Written.Contains(r.Key)))
        {
            yield return $"    {type,-21} create {Said(declared.Create)}, update as create {Said(declared.UpdateCreate)}, conditional create {Said(declared.ConditionalCreate)}";
        }
    }

    private static string Capabilities(TargetCapabilities? known) => known is null
        ? "not yet read"
        : $"read {Time(known.ReadAt)}: FHIR {known.FhirVersion ?? "not declared"}, transactions {Said(known.Transaction)}, {known.Resources.Count} resource types";

    private static string Said(bool? declared) => declared switch { true => "yes", false => "no", _ => "not declared" };

    private static string Name(Rung rung) => string.Create(CultureInfo.InvariantCulture, $"{(int)rung} ({Words.Of(rung)})");

    private static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
