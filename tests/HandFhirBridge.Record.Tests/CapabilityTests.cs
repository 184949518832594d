using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// R4 capabilitystatement.html: what a server says it does, it does; what it does not say, it refuses. The codes are those of the value sets
// type-restful-interaction and system-restful-interaction, all of them.
public sealed class CapabilityTests(RecordServer server) : IClassFixture<RecordServer>
{
    private const string Patient = """{"resourceType":"Patient","id":"cap"}""";
    private const string Batch = """{"resourceType":"Bundle","type":"TYPE","entry":[{"request":{"method":"GET","url":"Patient/cap"} }]}""";

    [Theory]
    [InlineData("create", "POST", "Patient", Patient, 201)]
    [InlineData("read", "GET", "Patient/cap", null, 200)]
    [InlineData("vread", "GET", "Patient/cap/_history/1", null, 200)]
    [InlineData("update", "PUT", "Patient/cap", Patient, 200)]
    [InlineData("patch", "PATCH", "Patient/cap", "[]", 405)]
    [InlineData("delete", "DELETE", "Patient/none", null, 204)]
    [InlineData("history-instance", "GET", "Patient/cap/_history", null, 200)]
    [InlineData("history-type", "GET", "Patient/_history", null, 200)]
    [InlineData("search-type", "GET", "Patient", null, 200)]
    public async Task Metadata_InteractionsOfATypeAreThoseThatAnswer(string code, string method, string url, string? body, int status)
    {
        await server.SendAsync(HttpMethod.Put, "Patient/cap", Patient);
        var claimed = (await RestAsync())["resource"]!.AsArray().Select(r => Codes(r!).Contains(code)).Distinct().ShouldHaveSingleItem();

        var answer = await server.SendAsync(HttpMethod.Parse(method), url, body);

        answer.Status.ShouldBe(status, answer.Text);
        (answer.Status < 300).ShouldBe(claimed);
    }

    [Theory]
    [InlineData("transaction", "POST", "", 200)]
    [InlineData("batch", "POST", "", 200)]
    [InlineData("search-system", "GET", "?_id=cap", 405)]
    [InlineData("history-system", "GET", "_history", 200)]
    public async Task Metadata_InteractionsOfTheSystemAreThoseThatAnswer(string code, string method, string url, int status)
    {
        await server.SendAsync(HttpMethod.Put, "Patient/cap", Patient);
        var body = method == "POST" ? Batch.Replace("TYPE", code, StringComparison.Ordinal) : null;

        var answer = await server.SendAsync(HttpMethod.Parse(method), url, body);

        answer.Status.ShouldBe(status, answer.Text);
        (answer.Status < 300).ShouldBe(Codes(await RestAsync()).Contains(code));
    }

    // By GET or by POST, as R4 operations.html#request has it. A claim without a request here fails, and so does an answer without a claim.
    [Fact]
    public async Task Metadata_OperationsAreThoseThatAnswer()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/cap", Patient);
        await server.SendAsync(HttpMethod.Put, "Group/cap", """{"resourceType":"Group","id":"cap","type":"person","actual":true}""");
        var requests = new Dictionary<string, string>
        {
            ["Observation/lastn"] = "Observation/$lastn?patient=cap&category=x",
            ["Observation/stats"] = "Observation/$stats?subject=Patient/cap&code=a&system=urn:b&statistic=count",
            ["Patient/everything"] = "Patient/cap/$everything",
            ["Patient/validate"] = "Patient/cap/$validate",
            ["/export"] = "$export",
            ["Patient/export"] = "Patient/$export",
            ["Group/export"] = "Group/cap/$export",
            ["Patient/match"] = "Patient/$match",
            ["Patient/meta"] = "Patient/cap/$meta",
            ["Observation/meta"] = "Observation/$meta",
            ["ValueSet/expand"] = "ValueSet/$expand?url=x",
            ["/convert"] = "$convert",
            ["/validate"] = "$validate",
            ["/everything"] = "$everything",
            ["Group/everything"] = "Group/cap/$everything",
        };
        var rest = await RestAsync();
        var claimed = Operations(rest, "").Concat(rest["resource"]!.AsArray().SelectMany(r => Operations(r!, (string)r!["type"]!))).ToList();
        // $validate is an operation of every type; one stands for all.
        claimed.Count(c => c.EndsWith("/validate", StringComparison.Ordinal)).ShouldBe(rest["resource"]!.AsArray().Count);
        claimed.RemoveAll(c => c.EndsWith("/validate", StringComparison.Ordinal) && c != "Patient/validate");

        var answered = new List<string>();
        foreach (var (name, url) in requests)
        {
            var answer = await server.SendAsync(HttpMethod.Get, url, null, ("Prefer", "respond-async"));
            answer.Status.ShouldBeOneOf(200, 202, 404, 405, 429);
            if (answer.Status is 200 or 202 or 429)
            {
                answered.Add(name);
            }
        }

        answered.ShouldBe(claimed, ignoreOrder: true);
    }

    [Fact]
    public async Task Metadata_FormatsAreThoseThatAnswer()
    {
        var formats = (await server.GetAsync("metadata")).Json["format"]!.AsArray().Select(f => (string)f!).ToList();

        formats.ShouldBe(["application/fhir+json", "application/fhir+xml", "json", "xml"]);
        foreach (var format in formats)
        {
            var answer = await server.GetAsync($"Patient?_format={Uri.EscapeDataString(format)}");
            answer.Message.Content.Headers.ContentType!.MediaType!.ShouldEndWith(format);
        }

        (await server.GetAsync("Patient?_format=ttl")).Status.ShouldBe(406);
    }

    private async Task<JsonNode> RestAsync() => (await server.GetAsync("metadata")).Json["rest"]![0]!;

    private static IEnumerable<string> Codes(JsonNode of) => of["interaction"]!.AsArray().Select(i => (string)i!["code"]!);

    private static IEnumerable<string> Operations(JsonNode of, string type) => (of["operation"]?.AsArray() ?? []).Select(o => $"{type}/{o!["name"]}");
}
