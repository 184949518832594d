using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>
/// From session documents of two clinics, delivered to two servers (the embedded record and one that others wrote), to SQL over what was
/// gathered from both. What is expected is read from the documents themselves.
/// </summary>
public sealed class OutcomesTests(OutcomesTests.TwoServers servers) : IClassFixture<OutcomesTests.TwoServers>
{
    private static readonly string[] Documents =
    [
        Repository.Example("sessions", "harbour-hand-clinic", "lindqvale-visit-1.json"),
        Directory.GetFiles(Repository.Example("sessions", "alder-street-therapy"), "*.json").Order(StringComparer.Ordinal).First(),
    ];

    [Fact]
    public async Task Sql_OverTwoSources_GivesTimesOfTheDocumentsWithTheirDigits()
    {
        await servers.GatheredAsync();

        var run = await servers.RunAsync("outcomes", "sql", "SELECT site, session, task, hand, seconds_written AS seconds FROM trials WHERE seconds IS NOT NULL ORDER BY ALL", "--format", "ndjson");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.JsonLines().Select(Cells).ShouldBe(Documents.SelectMany(Expected).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Sql_OfSums_IsExact()
    {
        await servers.GatheredAsync();

        var run = await servers.RunAsync("outcomes", "sql", "SELECT sum(seconds) AS s FROM trials WHERE comparator IS NULL", "--format", "csv");

        var expected = Documents.SelectMany(Trials).Where(t => (string?)t["outcome"] == "completed").Sum(t => decimal.Parse(t["seconds"]!.ToJsonString(), System.Globalization.CultureInfo.InvariantCulture));
        decimal.Parse(run.Output.Split('\n')[1], System.Globalization.CultureInfo.InvariantCulture).ShouldBe(expected);
    }

    // The same figures by a statement written by hand.
    [Fact]
    public async Task Summary_OfTwoSources_GivesTheFiguresOfSqlAndHoldsSmallGroupsBack()
    {
        await servers.GatheredAsync();

        var summary = await servers.RunAsync("outcomes", "summary", "--by", "task,hand", "--smallest-group", "1", "--format", "csv");
        var sql = await servers.RunAsync("outcomes", "sql", """
            SELECT task, hand, count(DISTINCT source || patient_key) AS persons, count(*) AS trials, avg(seconds) FILTER (comparator IS NULL) AS mean
            FROM trials GROUP BY ALL ORDER BY ALL
            """, "--format", "csv");
        var held = await servers.RunAsync("outcomes", "summary");

        summary.ExitCode.ShouldBe(0, summary.Output + summary.Error);
var (ours, theirs) = (Cells(summary), Cells(sql));
        ours.Select(c => (c[0], c[1], c[2], c[3])).ShouldBe(theirs.Select(c => (c[0], c[1], c[2], c[3])));
        // Ours are rounded to hundredths.
        ours.Zip(theirs).ShouldAllBe(pair => Math.Abs(Number(pair.First[7]) - Number(pair.Second[4])) <= 0.005001);
        held.Output.ShouldContain("14 groups are not shown: fewer than 5 persons");
        held.Output.ShouldContain("not for judging one patient");
    }

    // 45 CFR 164.514(b)(2)(i): what names a person in the documents is nowhere in what leaves; the times are.
    [Fact]
    public async Task Export_OfWhatWasGathered_HoldsTheTimesAndNoIdentity()
    {
        await servers.GatheredAsync();
        var key = servers.Folder.Write("project.key", string.Concat(Enumerable.Repeat("0f", 32)));

        var run = await servers.RunAsync("outcomes", "export", "leaves", "--key-file", key);
        var again = await servers.RunAsync("outcomes", "export", "leaves");
        var joined = await servers.RunAsync("outcomes", "export", "more", "--key-file", key, "--format", "ndjson");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Output.ShouldContain("164.514(b)(2)(i)(A) to (R) were removed");
        (again.ExitCode, joined.ExitCode).ShouldBe((2, 0));
        var trials = File.ReadAllLines(servers.Folder.File("leaves/trials.csv"));
        trials.Length.ShouldBe(1 + 28);
        var everything = string.Concat(Directory.EnumerateFiles(servers.Folder.File("leaves")).Select(File.ReadAllText));
        foreach (var document in Documents.Select(Document))
        {
            var (patient, performer) = (document["patient"]!, document["performer"]!);
            foreach (var planted in new[]
            {
                patient["identifier"]!["value"]!, patient["familyName"]!, patient["birthDate"]!, performer["name"]!, performer["identifier"]!["value"]!,
                document["sessionId"]!, document["site"]!,
            })
            {
                everything.ShouldNotContain(planted.ToString(), Case.Insensitive);
            }

            everything.ShouldNotContain(document["startedAt"]!.ToString()[..10]);
            foreach (var seconds in document["trials"]!.AsArray().Select(t => t!["seconds"]).OfType<JsonNode>())
            {
                everything.ShouldContain(seconds.ToJsonString());
            }
        }

        var place = trials[0].Split(',').ToList().IndexOf("patient_key");
        File.ReadAllText(servers.Folder.File("more/trials.ndjson")).ShouldContain(trials[1].Split(',')[place]);
    }

    [Theory]
    [InlineData("nonsense", "task=writing", "5", "Results cannot be told apart by \"nonsense\".")]
    [InlineData("task", "site", "5", "The filter \"site\" has no value.")]
    [InlineData("task", "task=writing", "0", "The smallest group is 0")]
    public async Task Summary_QuestionThatCannotBeAsked_IsRefused(string by, string where, string smallest, string sentence)
    {
        var run = await servers.RunAsync("outcomes", "summary", "--by", by, "--where", where, "--smallest-group", smallest);

        (run.ExitCode, run.Output).ShouldBe((2, ""));
        run.Error.ShouldStartWith(sentence);
    }

    [Fact]
    public async Task Gather_OfServerThatIsDown_NamesItAndKeepsTheOthers()
    {
        var gathered = await servers.GatheredAsync();

        gathered.ExitCode.ShouldBe(1, gathered.Output + gathered.Error);
        gathered.Output.ShouldContain("down: failed. HFB7201: down at 127.0.0.1:9 does not answer.");
        gathered.Output.ShouldContain("rows: 0 conditions, 2 patients, 2 reports");
    }

    [Fact]
    public async Task Rows_OfAViewInAFile_AreThoseOfTheView()
    {
        await servers.GatheredAsync();
        var view = servers.Folder.Write("births.json", """{"resourceType": "ViewDefinition", "name": "births", "resource": "Patient", "status": "active", "select": [{"column": [{"name": "birth", "path": "birthDate", "type": "date"}]}]}""");

        var run = await servers.RunAsync("outcomes", "rows", view);

        run.Output.ReplaceLineEndings("\n").Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)
            .ShouldBe(Documents.Select((d, i) => $"{(i == 0 ? "default" : "south")},{Document(d)["patient"]!["birthDate"]}").Append("source,birth").Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("HFB7104", "outcomes", "sql", "SELECT nothing FROM nowhere")]
    [InlineData("HFB7105", "outcomes", "rows", "nosuchview")]
    public async Task Outcomes_OfWhatIsNotThere_SaysSo(string code, params string[] words)
    {
        await servers.GatheredAsync();

        var run = await servers.RunAsync(words);

        (run.ExitCode, run.Output).ShouldBe((1, ""));
        run.Error.ShouldStartWith(code);
    }

    [Fact]
    public async Task Outcomes_BeforeGathering_SayWhatToDo()
    {
        using var empty = new DataFolder();

        var run = await CommandRun.StartAsync(empty.Path, "outcomes", "sql", "SELECT 1");

        run.ExitCode.ShouldBe(1);
        run.Error.ShouldStartWith("HFB7101");
    }

    private static string[][] Cells(CommandRun run) => [.. run.Output.ReplaceLineEndings("\n").Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(line => line.Split(','))];

    private static double Number(string cell) => double.Parse(cell, System.Globalization.CultureInfo.InvariantCulture);

    private static JsonNode Document(string path) => JsonNode.Parse(File.ReadAllText(path))!;

    private static IEnumerable<JsonNode> Trials(string path) => Document(path)["trials"]!.AsArray().OfType<JsonNode>().Where(t => (bool?)t["counted"] != false);

    private static IEnumerable<string> Expected(string path) => Trials(path).Where(t => t["seconds"] is not null).Select(t => Cells(new JsonObject
    {
        ["site"] = Document(path)["site"]!.DeepClone(),
        ["session"] = Document(path)["sessionId"]!.DeepClone(),
        ["task"] = t["task"]!.DeepClone(),
        ["hand"] = t["hand"]!.DeepClone(),
        ["seconds"] = t["seconds"]!.ToJsonString(),
    }));

    private static string Cells(JsonNode row) => string.Join('|', row.AsObject().Select(c => c.Value!.ToString()));

    /// <summary>A clinic for each of two servers, a third server that is down, and what was gathered of them.</summary>
    public sealed class TwoServers : IAsyncLifetime
    {
        private readonly SemaphoreSlim once = new(1, 1);
        private PeerServer? peer;
        private CommandRun? gathered;

        internal DataFolder Folder { get; } = new();

        public async ValueTask InitializeAsync()
        {
            Assert.SkipWhen(PeerServer.Missing is not null, PeerServer.Missing ?? "");
            peer = await PeerServer.StartAsync(keepDigits: true, TestContext.Current.CancellationToken);
            Folder.Write("handfhirbridge.json", $$"""
                { "DataDirectory": "data", "Demonstration": true,
                  "Target": { "CreatePatients": true, "EmbeddedPort": 0 },
                  "Targets": [ { "Name": "south", "BaseUrl": "{{peer.BaseUrl}}", "CreatePatients": true }, { "Name": "down", "BaseUrl": "http://127.0.0.1:9/fhir" } ],
                  "Sites": [ { "Id": "harbour-hand-clinic", "Name": "Harbour" }, { "Id": "alder-street-therapy", "Name": "Alder", "Target": "south" } ] }
                """);
        }

        public ValueTask DisposeAsync()
        {
            peer?.Dispose();
            Folder.Dispose();
            once.Dispose();
            return ValueTask.CompletedTask;
        }

        internal Task<CommandRun> RunAsync(params string[] words) => CommandRun.StartAsync(Folder.Path, words);

        internal async Task<CommandRun> GatheredAsync()
        {
            await once.WaitAsync(TestContext.Current.CancellationToken);
            try
            {
                if (gathered is null)
                {
                    var submitted = await RunAsync(["submit", .. Documents]);
                    submitted.ExitCode.ShouldBe(0, submitted.Output + submitted.Error);
                    gathered = await RunAsync("gather");
                }

                return gathered;
            }
            finally
            {
                once.Release();
            }
        }
    }
}
