using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// R4 http.html#transaction
public sealed class TransactionTests(RecordServer server) : IClassFixture<RecordServer>
{
    [Fact]
    public async Task Transaction_PutsWithUrns_StoresAllAndRewritesReferences()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000061", Patient("a"), "PUT", "Patient/t-a"),
            Entry("urn:uuid:00000000-0000-4000-8000-000000000062", Observation("b", "urn:uuid:00000000-0000-4000-8000-000000000061"), "PUT", "Observation/t-b")));

        answer.Status.ShouldBe(200, answer.Text);
        answer.Json["entry"]!.AsArray().Select(e => (string)e!["response"]!["status"]!).ShouldBe(["201 Created", "201 Created"]);
        ((string)(await server.GetAsync("Observation/t-b")).Json["subject"]!["reference"]!).ShouldBe("Patient/t-a");
    }

    [Fact]
    public async Task Transaction_ConditionalCreatesTwice_StoresOnceAndPointsAtTheFirst()
    {
        var bundle = Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000063", Patient("c"), "POST", "Patient", "identifier=urn:t|c"),
            Entry("urn:uuid:00000000-0000-4000-8000-000000000064", Observation("d", "urn:uuid:00000000-0000-4000-8000-000000000063"), "POST", "Observation", "identifier=urn:t|d"));

        var first = await server.SendAsync(HttpMethod.Post, "", bundle);
        var second = await server.SendAsync(HttpMethod.Post, "", bundle);

        second.Json["entry"]!.AsArray().Select(e => (string)e!["response"]!["status"]!).ShouldBe(["200 OK", "200 OK"]);
        Locations(second).ShouldBe(Locations(first));
        (await server.GetAsync("Observation?identifier=urn:t|d")).Ids.Count().ShouldBe(1);
    }

    [Fact]
    public async Task Transaction_OneEntryRefused_StoresNothing()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000065", Patient("e"), "PUT", "Patient/t-e"),
            Entry("urn:uuid:00000000-0000-4000-8000-000000000066", Observation("f", "urn:uuid:00000000-0000-4000-8000-0000000000ff"), "PUT", "Observation/t-f")));

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain("urn:uuid:00000000-0000-4000-8000-0000000000ff");
        (await server.GetAsync("Patient/t-e")).Status.ShouldBe(404);
    }

    [Fact]
    public async Task Transaction_ConditionalReference_IsResolvedOrRefused()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/t-g", Patient("g", "t-g"));

        (await server.SendAsync(HttpMethod.Post, "", Bundle(Entry("urn:uuid:00000000-0000-4000-8000-000000000068", Observation("h", "Patient?identifier=urn:t|g"), "PUT", "Observation/t-h")))).Status.ShouldBe(200);
        ((string)(await server.GetAsync("Observation/t-h")).Json["subject"]!["reference"]!).ShouldBe("Patient/t-g");
        (await server.SendAsync(HttpMethod.Post, "", Bundle(Entry("urn:uuid:00000000-0000-4000-8000-000000000069", Observation("i", "Patient?identifier=urn:t|none"), "PUT", "Observation/t-i")))).Status.ShouldBe(412);
    }

    [Fact]
    public async Task Transaction_TwoEntriesChangeTheSame_IsRefused() =>
        (await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-00000000006a", Patient("j"), "PUT", "Patient/t-j"),
            Entry("urn:uuid:00000000-0000-4000-8000-00000000006b", Patient("j"), "PUT", "Patient/t-j")))).Status.ShouldBe(400);

    // R4 http.html#trules: deletions, then creates, then updates, then reads.
    [Fact]
    public async Task Transaction_ReadInTheSameTransaction_SeesWhatWasWritten()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            new JsonObject { ["request"] = new JsonObject { ["method"] = "GET", ["url"] = "Patient/t-l" } },
            Entry("urn:uuid:00000000-0000-4000-8000-00000000006c", Patient("l"), "PUT", "Patient/t-l")));

        answer.Status.ShouldBe(200, answer.Text);
        ((string)answer.Json["entry"]![0]!["resource"]!["id"]!).ShouldBe("t-l");
    }

    [Fact]
    public async Task Batch_OneEntryRefused_StoresTheOthers()
    {
        var bundle = JsonNode.Parse(Bundle(Entry("urn:uuid:00000000-0000-4000-8000-00000000006d", Patient("m"), "PUT", "Patient/t-m"), Entry("urn:uuid:00000000-0000-4000-8000-00000000006e", Patient("n"), "PUT", "Patient/t-wrong")))!;
        bundle["type"] = "batch";
        bundle["entry"]![1]!["resource"]!["id"] = "t-n";

        var answer = await server.SendAsync(HttpMethod.Post, "", bundle.ToJsonString());

        answer.Json["entry"]!.AsArray().Select(e => ((string)e!["response"]!["status"]!)[..3]).ShouldBe(["201", "400"]);
        (await server.GetAsync("Patient/t-m")).Status.ShouldBe(200);
    }

    private static IEnumerable<string> Locations(RecordServer.Answer answer) =>
        answer.Json["entry"]!.AsArray().Select(e => (string)e!["response"]!["location"]!);

    private static string Bundle(params JsonObject[] entries) =>
        new JsonObject { ["resourceType"] = "Bundle", ["type"] = "transaction", ["entry"] = new JsonArray([.. entries]) }.ToJsonString();

    private static JsonObject Entry(string fullUrl, string resource, string method, string url, string? ifNoneExist = null)
    {
        var body = JsonNode.Parse(resource)!;
        if (method == "PUT")
        {
            body["id"] = url.Split('/')[1];
        }

        var request = new JsonObject { ["method"] = method, ["url"] = url };
        if (ifNoneExist is not null)
        {
            request["ifNoneExist"] = ifNoneExist;
        }

        return new() { ["fullUrl"] = fullUrl, ["resource"] = body, ["request"] = request };
    }

    private static string Patient(string value, string? id = null) =>
        $$"""{"resourceType":"Patient",{{(id is null ? "" : $"\"id\":\"{id}\",")}}"identifier":[{"system":"urn:t","value":"{{value}}"}]}""";

    private static string Observation(string value, string subject) =>
        $$"""{"resourceType":"Observation","identifier":[{"system":"urn:t","value":"{{value}}"}],"status":"final","code":{"text":"x"},"subject":{"reference":"{{subject}}"} }""";
}
