using System.CommandLine;
using System.Text.Json;
using HandFhirBridge.Service.Demo;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>demo</c>: everything on this machine, with invented patients, on a data directory that is thrown away.</summary>
internal static class DemoCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var once = new Option<bool>("--once") { Description = "End after the examples are delivered." };
        var json = new Option<bool>("--json") { Description = "Print counts as one JSON object instead of the reports." };
        var port = new Option<int>("--port") { Description = "Port of the HTTP API on 127.0.0.1; 0 takes a free one.", DefaultValueFactory = _ => 0 };
        var demo = new Command("demo", "Start everything here, submit the examples, read the reports back and print them, then serve.") { once, json, port };
        demo.SetAction((parsed, cancellation) => RunAsync(
            parsed.GetValue(once), parsed.GetValue(json), parsed.GetValue(port), terminal, cancellation));
        return demo;
    }

    private static async Task<int> RunAsync(bool once, bool json, int port, CommandTerminal terminal, CancellationToken cancellation)
    {
        var data = Directory.CreateTempSubdirectory("handfhirbridge-demo-").FullName;
        try
        {
            await using var host = await BridgeHost.StartAsync(Settings(data, port), listen: true, cancellation);
            var demonstration = new Demonstration(host, terminal);
            var result = await demonstration.RunAsync(Path.Combine(data, "rejects"), Progress.On(terminal.Error), cancellation);
            if (json)
            {
                await terminal.Output.WriteLineAsync(JsonSerializer.Serialize(result, JsonText.Compact));
            }
            else
            {
                await demonstration.PrintAsync(cancellation);
                await terminal.Output.WriteLineAsync(
                    $"{result.Accepted} accepted, {result.Delivered} delivered, {result.Held} held, {result.Rejected} refused in {result.ElapsedMs} ms; in the record: {string.Join(", ", result.Resources.Select(r => $"{r.Value} {r.Key}"))}.");
            }

            if (!once)
            {
                await terminal.Output.WriteLineAsync(
                    $"Bedside page: {host.Addresses.First()}/table/   Course page: {host.Addresses.First()}/chart/   Ledger page: {host.Addresses.First()}/ledger/   HTTP API: {host.Addresses.First()}/openapi/v1.json   FHIR record: {host.Target}metadata   Ctrl-C stops and throws the data away.");
                await host.WaitAsync(cancellation);
            }

            return result.Delivered == result.Accepted && result.Rejected == 0 ? ExitCode.Done : ExitCode.Findings;
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(data, recursive: true);
        }
    }

    private static BridgeSettings Settings(string data, int port)
    {
        var settings = new BridgeSettings { DataDirectory = data, Demonstration = true, Listen = $"http://127.0.0.1:{port}" };
        settings.Target.EmbeddedPort = 0;
        settings.Sites.Add(new() { Id = "harbour-hand-clinic", Name = "Harbour Hand Clinic" });
        settings.Sites.Add(new() { Id = "alder-street-therapy", Name = "Alder Street Therapy" });
        return settings;
    }
}
