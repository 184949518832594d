using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Record.Tests.Export;

// FHIR Bulk Data Access 2.0: "Bulk Data Status Request", "Bulk Data Delete Request", "Expires"; quoted is its text.
public sealed class ExportLifeTests
{
    private static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Status_UnderWay_SaysHowFarAndWhenToAskAgain()
    {
        RecordServer.Answer? working = null;
        // How long one takes is the machine's affair: of a record large enough, an export is asked about before it is done.
        var resources = 150;
        while (working is null)
        {
            resources = 2 * resources;
            resources.ShouldBeLessThan(50_000, "no export was seen under way");
            await using var server = await FilledAsync(resources, options: path => new() { DatabasePath = path });
            var answer = await server.GetAsync(await server.BeginAsync("$export"));
            working = answer.Status == 202 ? answer : null;
        }

        working.Message.Headers.RetryAfter!.Delta!.Value.ShouldBeGreaterThan(TimeSpan.Zero);
        // "a text description of the status of the request that is less than 100 characters"
        var progress = working.Message.Headers.GetValues("X-Progress").ShouldHaveSingleItem();
        progress.ShouldMatch($"^[0-9]+ of {resources} resources written$");
    }

    // "when subsequent requests are made to the polling location, the server SHALL return a 404 Not Found error and an associated FHIR OperationOutcome"
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Delete_UnderWayOrDone_ForgetsTheExportAndItsFiles(bool done)
    {
        await using var server = await FilledAsync(resources: 200);
        var status = await server.BeginAsync("$export");
        var file = done ? (string)(await server.DoneAsync(status)).Files("output")[0]["url"]! : status + "/1.Patient.ndjson";
        Files(server).Length.ShouldBe(done ? 1 : Files(server).Length);

        (await server.SendAsync(HttpMethod.Delete, status)).Status.ShouldBe(202);

        foreach (var url in new[] { status, file })
        {
            var gone = await server.GetAsync(url);
            gone.Status.ShouldBe(404);
            ((string?)gone.Json["resourceType"]).ShouldBe("OperationOutcome");
        }

        (await server.SendAsync(HttpMethod.Delete, status)).Status.ShouldBe(404);
        Files(server).ShouldBeEmpty();
    }

    [Fact]
    public async Task Export_PastItsTime_IsGoneFromTheDisk()
    {
        var clock = new FakeTimeProvider(Morning);
        await using var server = await FilledAsync(resources: 3, clock: clock);
        var status = await server.BeginAsync("$export");
        var manifest = await server.DoneAsync(status);
        manifest.Expires.ShouldBe(Morning.AddHours(1));
        clock.Advance(TimeSpan.FromMinutes(59));
        (await manifest.LinesAsync()).Count.ShouldBe(3);
        Files(server).Length.ShouldBe(1);

        clock.Advance(TimeSpan.FromMinutes(1));

        await UntilAsync(() => Files(server).Length == 0);

        (await server.GetAsync(status)).Status.ShouldBe(404);
    }

    // "it SHOULD respond with a 429 Too Many Requests status and a Retry-After header"
    [Fact]
    public async Task KickOff_AboveTheLimitOfKeptExports_WaitsUntilOneGoes()
    {
        var clock = new FakeTimeProvider(Morning);
        await using var server = await FilledAsync(resources: 3, clock: clock, options: path => new() { DatabasePath = path, MaxKeptExports = 1 });
        var status = await server.BeginAsync("$export");
        await server.DoneAsync(status);
        clock.Advance(TimeSpan.FromMinutes(20));

        var refused = await server.KickOffAsync("$export");

        refused.Status.ShouldBe(429);
        refused.Message.Headers.RetryAfter!.Delta.ShouldBe(TimeSpan.FromMinutes(40));
        ((string?)refused.Json["issue"]![0]!["code"]).ShouldBe("throttled");
        await server.SendAsync(HttpMethod.Delete, status);
        await server.DoneAsync(await server.BeginAsync("$export"));
    }

    [Fact]
    public async Task KickOff_AboveTheLimitOfRunningExports_IsPutOff()
    {
        await using var server = await FilledAsync(resources: 1, options: path => new() { DatabasePath = path, MaxRunningExports = 0 });

        var refused = await server.KickOffAsync("$export");

        (refused.Status, refused.Message.Headers.RetryAfter!.Delta > TimeSpan.Zero).ShouldBe((429, true));
    }

    // A killed process leaves its files; the next start takes them away, and leaves those of a server that lives.
    [Fact]
    public async Task Start_BesideAbandonedExports_RemovesThoseAlone()
    {
        await using var living = await FilledAsync(resources: 3);
        var manifest = await living.ExportAsync("$export");
        var abandoned = Directory.CreateDirectory(Path.Combine(Folder(living), "0123", "4567")).FullName;
        await File.WriteAllTextAsync(Path.Combine(abandoned, "1.Patient.ndjson"), "{}\n", Cancellation);

        await using var second = await RecordServer.StartAsync(new RecordOptions { DatabasePath = living.DatabasePath });

        Directory.Exists(abandoned).ShouldBeFalse();
        (await manifest.LinesAsync()).Count.ShouldBe(3);
        using var client = second.GetTestClient();
        using var answer = await client.GetAsync(new Uri(manifest.Files("output")[0]["url"]!.ToString()), Cancellation);
        ((int)answer.StatusCode).ShouldBe(404);
    }

    [Fact]
    public async Task Stop_WithExportsKept_LeavesNoFile()
    {
        var folder = Directory.CreateTempSubdirectory("hfb-record-").FullName;
        await using (var application = await RecordServer.StartAsync(new RecordOptions { DatabasePath = Path.Combine(folder, "record.db") }))
        {
            using var client = application.GetTestClient();
            using var request = new HttpRequestMessage(HttpMethod.Get, "/clinic/fhir/$export") { Headers = { { "Prefer", "respond-async" } } };
            using var answer = await client.SendAsync(request, Cancellation);
            ((int)answer.StatusCode).ShouldBe(202);
            Directory.GetDirectories(Path.Combine(folder, "record-exports")).Length.ShouldBe(1);
        }

        Directory.GetFileSystemEntries(Path.Combine(folder, "record-exports")).ShouldBeEmpty();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Files_OfAnExport_AreTheServicesAlone()
    {
        await using var server = await FilledAsync(resources: 3);
        await server.ExportAsync("$export");

        Modes(Files(server).ShouldHaveSingleItem()).ShouldBe(OperatingSystem.IsWindows() ? null : UnixFileMode.UserRead | UnixFileMode.UserWrite);
        Modes(Folder(server)).ShouldBe(OperatingSystem.IsWindows() ? null : UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    private static async Task UntilAsync(Func<bool> holds)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(1));
        while (!holds())
        {
            await Task.Delay(10, limit.Token);
        }
    }

    // Windows has none.
    private static UnixFileMode? Modes(string path) => OperatingSystem.IsWindows() ? null : File.GetUnixFileMode(path);

    private static string Folder(RecordServer server) => Path.Combine(Path.GetDirectoryName(server.DatabasePath)!, "record-exports");

    private static string[] Files(RecordServer server) => Directory.Exists(Folder(server)) ? Directory.GetFiles(Folder(server), "*.ndjson", SearchOption.AllDirectories) : [];

    private static async Task<RecordServer> FilledAsync(int resources, TimeProvider? clock = null, Func<string, RecordOptions>? options = null)
    {
        var server = options is null ? new RecordServer { Clock = clock ?? TimeProvider.System } : new RecordServer { Clock = clock ?? TimeProvider.System, Options = options };
        await server.InitializeAsync();
        var entries = Enumerable.Range(0, resources).Select(i => $$"""{"resource":{"resourceType":"Patient","id":"p{{i}}"},"request":{"method":"PUT","url":"Patient/p{{i}}"} }""");
        (await server.SendAsync(HttpMethod.Post, "", $$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', entries)}}]}""")).Status.ShouldBe(200);
        return server;
    }
}
