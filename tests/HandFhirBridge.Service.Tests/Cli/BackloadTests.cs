using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>Many sessions handed in at once, and the machine stopped on the way.</summary>
public sealed class BackloadTests : IDisposable
{
    private const int Good = 240;

    private readonly DataFolder folder = new();

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Submit_KilledAndHandedInAgain_HoldsEverySessionOnceAndGoesOnWhereItWas()
    {
        folder.Write("old.ndjson", Lines());
        await RunAndKillAsync("submit", "old.ndjson", "--queue-only");
        var before = await HeldAsync();
        before.ShouldBeInRange(1, Good, "Killed only once something was committed.");

        var run = await CommandRun.StartAsync(folder.Path, "submit", "old.ndjson", "--queue-only");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        run.Output.ShouldContain(string.Create(CultureInfo.InvariantCulture, $"{Good - before} accepted, {before} accepted before, 1 refused."));
        (await HeldAsync()).ShouldBe(Good);
        (await File.ReadAllLinesAsync(folder.File("rejects/old.ndjson"), Cancellation)).ShouldHaveSingleItem().ShouldContain("\"old-120\"");
    }

    /// <summary>One of an unknown hand among good ones.</summary>
    private static string Lines()
    {
        var session = JsonNode.Parse(File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", "lindqvale-visit-1.json")))!;
        return string.Join('\n', Enumerable.Range(0, Good + 1).Select(number =>
        {
            session["sessionId"] = string.Create(CultureInfo.InvariantCulture, $"old-{number}");
            var line = session.ToJsonString(JsonSerializerOptions.Default);
            return number == 120 ? line.Replace("\"hand\":\"left\"", "\"hand\":\"both\"", StringComparison.Ordinal) : line;
        }));
    }

    /// <summary>kill -9 as soon as the first batch is committed.</summary>
    private async Task RunAndKillAsync(params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", [Repository.ServiceProgram, .. arguments])
        {
            WorkingDirectory = folder.Path,
            RedirectStandardOutput = true,
        })!;
        while (await HeldAsync() == 0 && !process.HasExited)
        {
            await Task.Delay(20, Cancellation);
        }

        process.Kill(entireProcessTree: true);
        await process.WaitForExitAsync(Cancellation);
    }

    private async Task<int> HeldAsync()
    {
        var path = Directory.EnumerateFiles(folder.Path, "ledger.db", SearchOption.AllDirectories).FirstOrDefault();
        if (path is null)
        {
            return 0;
        }

        await using var connection = new SqliteConnection($"Data Source={path};Mode=ReadOnly;Pooling=False");
        try
        {
            await connection.OpenAsync(Cancellation);
            await using var count = connection.CreateCommand();
            count.CommandText = "SELECT count(DISTINCT session_id) FROM sessions";
            return Convert.ToInt32(await count.ExecuteScalarAsync(Cancellation), CultureInfo.InvariantCulture);
        }
        catch (SqliteException)
        {
            // Being made.
            return 0;
        }
    }
}
