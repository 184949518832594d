using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests.Export;

// FHIR Bulk Data Access 2.0, transactionTime: "The response SHOULD NOT include any resources modified after this instant, and SHALL include
// any matching resources modified up to and including this instant."
public sealed class ExportConsistencyTests
{
    [Fact]
    public async Task Export_WrittenToMeanwhile_IsAsOfItsInstant()
    {
        await using var server = await StartAsync();
        await server.PutAsync(Patient("kept", "1"), Patient("changed", "1"), Patient("removed", "1"));
        var status = await server.BeginAsync("$export?_type=Patient");
        // What was begun is settled, whenever it is written.
        await server.SendAsync(HttpMethod.Put, "Patient/changed", Patient("changed", "2"));
        await server.SendAsync(HttpMethod.Delete, "Patient/removed");
        await server.PutAsync(Patient("new", "1"));

        var first = await server.DoneAsync(status);
        var next = await server.ExportAsync($"$export?_type=Patient&_since={first.TransactionTime}");

        (await ValuesAsync(first)).ShouldBe("changed=1 kept=1 removed=1");
        (await ValuesAsync(next)).ShouldBe("changed=2 new=1");
        (await DeletedAsync(next)).ShouldBe("Patient/removed");
    }

    // Two charts are always written in one transaction, while exports follow each other by transactionTime.
    [Fact]
    public async Task Exports_WhileOthersWrite_SeeWholeTransactionsAndMissNone()
    {
        await using var server = await StartAsync();
        var writing = Task.Run(async () =>
        {
            for (var i = 1; i <= 60; i++)
            {
                var entries = new[] { "left", "right" }.Select(id => $$"""{"resource":{{Patient(id, $"{i}")}},"request":{"method":"PUT","url":"Patient/{{id}}"} }""");
                (await server.SendAsync(HttpMethod.Post, "", $$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', entries)}}]}""")).Status.ShouldBe(200);
            }
        }, TestContext.Current.CancellationToken);
        var (held, since, last) = (new Dictionary<string, string>(), "", false);
        do
        {
            last = writing.IsCompleted;
            var manifest = await server.ExportAsync($"$export?_type=Patient{since}");
            foreach (var patient in (await manifest.LinesAsync()).Select(l => JsonNode.Parse(l)!))
            {
                Moment((string)patient["meta"]!["lastUpdated"]!).ShouldBeLessThanOrEqualTo(Moment(manifest.TransactionTime));
                held[(string)patient["id"]!] = (string)patient["identifier"]![0]!["value"]!;
            }

            held.Values.Distinct().Count().ShouldBeLessThanOrEqualTo(1, "a transaction was torn");
            since = $"&_since={manifest.TransactionTime}";
        }
        while (!last);

        await writing;
        held.ShouldBe(new Dictionary<string, string> { ["left"] = "60", ["right"] = "60" }, ignoreOrder: true);
    }

    // "this array SHOULD be populated with output files containing FHIR Transaction Bundles that indicate which FHIR resources match the
    // kick-off request criteria, but have been deleted"
    [Theory]
    [InlineData("$export", "Observation/mine Observation/theirs Patient/them Practitioner/doc")]
    [InlineData("$export?_type=Practitioner", "Practitioner/doc")]
    [InlineData("Patient/$export", "Observation/mine Observation/theirs Patient/them")]
    [InlineData("Group/us/$export", "Observation/mine")]
    public async Task Export_AfterDeletions_NamesThoseOfTheLevel(string url, string deleted)
    {
        await using var server = await StartAsync();
        await server.PutAsync(
            Patient("us", "1"),
            Patient("them", "1"),
            """{"resourceType":"Practitioner","id":"doc"}""",
            """{"resourceType":"Group","id":"us","type":"person","actual":true,"member":[{"entity":{"reference":"Patient/us"}}]}""",
            """{"resourceType":"Observation","id":"mine","status":"final","code":{"text":"x"},"subject":{"reference":"Patient/us"}}""",
            """{"resourceType":"Observation","id":"theirs","status":"final","code":{"text":"x"},"subject":{"reference":"Patient/them"}}""");
        var before = await server.ExportAsync("$export");
        before.Json["deleted"].ShouldBeNull();
        foreach (var gone in new[] { "Observation/mine", "Observation/theirs", "Practitioner/doc", "Patient/them" })
        {
            (await server.SendAsync(HttpMethod.Delete, gone)).Status.ShouldBeOneOf(200, 204);
        }

        var after = await server.ExportAsync($"{url}{(url.Contains('?') ? '&' : '?')}_since={before.TransactionTime}");

        (await DeletedAsync(after)).ShouldBe(deleted);
        (await after.LinesAsync()).ShouldBeEmpty();
    }

    private static DateTimeOffset Moment(string instant) => DateTimeOffset.Parse(instant, System.Globalization.CultureInfo.InvariantCulture);

    private static async Task<string> ValuesAsync(Exporting.Manifest manifest) => string.Join(
        ' ', (await manifest.LinesAsync()).Select(l => JsonNode.Parse(l)!).Select(p => $"{p["id"]}={p["identifier"]![0]!["value"]}").Order(StringComparer.Ordinal));

    // "The request.method element SHALL be set to DELETE."
    private static async Task<string> DeletedAsync(Exporting.Manifest manifest)
    {
        var bundles = (await manifest.LinesAsync("deleted")).Select(l => JsonNode.Parse(l)!).ToList();
        bundles.ShouldAllBe(b => (string?)b["type"] == "transaction");
        var requests = bundles.SelectMany(b => b["entry"]!.AsArray()).Select(e => e!["request"]!).ToList();
        requests.ShouldAllBe(r => (string?)r["method"] == "DELETE");
        return string.Join(' ', requests.Select(r => (string)r["url"]!).Order(StringComparer.Ordinal));
    }

    private static string Patient(string id, string value) => $$"""{"resourceType":"Patient","id":"{{id}}","identifier":[{"system":"urn:m","value":"{{value}}"}]}""";

    private static async Task<RecordServer> StartAsync()
    {
        var server = new RecordServer { Options = path => new() { DatabasePath = path, MaxKeptExports = 10_000 } };
        await server.InitializeAsync();
        return server;
    }
}
