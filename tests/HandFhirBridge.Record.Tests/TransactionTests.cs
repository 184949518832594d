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
        answer.Expressions.ShouldBe(["Bundle.entry[1]"]);
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

    // "If any resource identities (including resolved identities from conditional update/delete) overlap …, then the transaction SHALL fail."
    [Fact]
    public async Task Transaction_ConditionLeadsToWhatAnotherEntryChanges_IsRefused()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/t-o", Patient("o", "t-o"));
        var conditional = new JsonObject
        {
            ["resource"] = JsonNode.Parse(Patient("o")),
            ["request"] = new JsonObject { ["method"] = "PUT", ["url"] = "Patient?identifier=urn:t|o" },
        };

        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(conditional, Entry("urn:uuid:00000000-0000-4000-8000-000000000070", Patient("o"), "PUT", "Patient/t-o")));

        answer.Status.ShouldBe(400, answer.Text);
        (await server.GetAsync("Patient/t-o")).ETag.ShouldBe("W/\"1\"");
    }

    // Two creates on one condition would make the pair that the condition is there to prevent.
    [Fact]
    public async Task Transaction_TwoCreatesOnOneCondition_IsRefused()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000071", Patient("p"), "POST", "Patient", "identifier=urn:t|p"),
            Entry("urn:uuid:00000000-0000-4000-8000-000000000072", Patient("p"), "POST", "Patient", "identifier=urn:t|p")));

        answer.Status.ShouldBe(400);
        (await server.GetAsync("Patient?identifier=urn:t|p")).Ids.ShouldBeEmpty();
    }

    [Fact]
    public async Task Transaction_StaleVersion_StoresNothingAndNamesTheEntry()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/t-q", Patient("q", "t-q"));
        var stale = Entry("urn:uuid:00000000-0000-4000-8000-000000000073", Patient("q"), "PUT", "Patient/t-q");
        stale["request"]!["ifMatch"] = "W/\"7\"";

        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(Entry("urn:uuid:00000000-0000-4000-8000-000000000074", Patient("r"), "PUT", "Patient/t-r"), stale));

        answer.Status.ShouldBe(412);
        answer.Expressions.ShouldBe(["Bundle.entry[1]"]);
        (await server.GetAsync("Patient/t-r")).Status.ShouldBe(404);
    }

    [Fact]
    public async Task Transaction_EntryMalformed_NamesElementAndEntry()
    {
        var bundle = JsonNode.Parse(Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000075", Patient("s"), "PUT", "Patient/t-s"),
            Entry("urn:uuid:00000000-0000-4000-8000-000000000076", Patient("u"), "PUT", "Patient/t-u")))!;
        bundle["entry"]![1]!["resource"]!["birthDate"] = "soon";

        var answer = await server.SendAsync(HttpMethod.Post, "", bundle.ToJsonString());

        answer.Status.ShouldBe(400);
        answer.Expressions.ShouldBe(["Bundle.entry[1].resource.birthDate"]);
        (await server.GetAsync("Patient/t-s")).Status.ShouldBe(404);
    }

    // "DELETE … POST … PUT": a deletion comes first, so that what it leaves can be made again; a resource is written once.
    [Fact]
    public async Task Transaction_DeleteAndCreateTogether_BothHappen()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/t-v", Patient("v", "t-v"));

        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000077", Patient("w"), "POST", "Patient"),
            new JsonObject { ["request"] = new JsonObject { ["method"] = "DELETE", ["url"] = "Patient/t-v" } }));

        answer.Statuses.ShouldBe(["201", "204"]);
        (await server.GetAsync("Patient/t-v")).Status.ShouldBe(410);
    }

    // "… all the references: Reference.reference, uri, canonical, and the links of the narrative"; other text stays as it is.
    [Fact]
    public async Task Transaction_UrnInNarrativeAndText_RewritesLinksAlone()
    {
        const string urn = "urn:uuid:00000000-0000-4000-8000-000000000078";
        var observation = JsonNode.Parse(Observation("x", urn))!.AsObject();
        observation["identifier"]![0]!["value"] = urn;
        observation["text"] = new JsonObject { ["status"] = "generated", ["div"] = $"<div xmlns=\"http://www.w3.org/1999/xhtml\"><a href=\"{urn}\">who</a></div>" };

        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-000000000079", observation.ToJsonString(), "PUT", "Observation/t-x"), Entry(urn, Patient("x"), "PUT", "Patient/t-x")));

        answer.Status.ShouldBe(200, answer.Text);
        var stored = (await server.GetAsync("Observation/t-x")).Json;
        ((string)stored["subject"]!["reference"]!).ShouldBe("Patient/t-x");
        ((string)stored["text"]!["div"]!).ShouldContain("<a href=\"Patient/t-x\">");
        ((string)stored["identifier"]![0]!["value"]!).ShouldBe(urn);
    }

    // R4 bundle.html#references: a relative reference is relative to the base of the fullUrl it stands under.
    [Fact]
    public async Task Transaction_RelativeReferenceToACreatedEntry_IsRewritten()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(
            Entry("http://other.example.org/fhir/Patient/77", Patient("y"), "POST", "Patient"),
            Entry("http://other.example.org/fhir/Observation/78", Observation("y", "Patient/77"), "POST", "Observation")));

        answer.Status.ShouldBe(200, answer.Text);
        var patient = Locations(answer).First().Split("/_history")[0];
        ((string)(await server.GetAsync(Locations(answer).Last())).Json["subject"]!["reference"]!).ShouldBe(patient);
    }

    [Fact]
    public async Task Transaction_PreferringRepresentation_ReturnsWhatWasStored()
    {
        var answer = await server.SendAsync(
            HttpMethod.Post, "", Bundle(Entry("urn:uuid:00000000-0000-4000-8000-00000000007a", Patient("z"), "PUT", "Patient/t-z")), ("Prefer", "return=representation"));

        ((string)answer.Json["entry"]![0]!["resource"]!["id"]!).ShouldBe("t-z");
        ((string)answer.Json["entry"]![0]!["response"]!["etag"]!).ShouldBe("W/\"1\"");
    }

    // The conditional creates of one transaction, sent twice at the same instant, make one set.
    [Fact]
    public async Task Transaction_SentManyTimesAtOnce_StoresOnce()
    {
        var bundle = Bundle(
            Entry("urn:uuid:00000000-0000-4000-8000-00000000007b", Patient("many"), "POST", "Patient", "identifier=urn:t|many"),
            Entry("urn:uuid:00000000-0000-4000-8000-00000000007c", Observation("many", "urn:uuid:00000000-0000-4000-8000-00000000007b"), "POST", "Observation", "identifier=urn:t|many"));

        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => server.SendAsync(HttpMethod.Post, "", bundle)));

        answers.Count(a => a.Statuses.SequenceEqual(["201", "201"])).ShouldBe(1);
        answers.Count(a => a.Statuses.SequenceEqual(["200", "200"])).ShouldBe(7);
        (await server.GetAsync("Observation?identifier=urn:t|many")).Ids.Count().ShouldBe(1);
    }

    [Theory]
    [InlineData("PATCH", "Patient/1", "Bundle.entry[0].request.method")]
    [InlineData("PUT", "Patient", "Bundle.entry[0].request.url")]
    [InlineData("PUT", "Cat/1", "Bundle.entry[0].request.url")]
    [InlineData("POST", "Observation", "Bundle.entry[0].resource")]
    public async Task Transaction_EntryOfAnotherKind_IsRefused(string method, string url, string place)
    {
        var entry = new JsonObject { ["resource"] = JsonNode.Parse(Patient("k")), ["request"] = new JsonObject { ["method"] = method, ["url"] = url } };

        var answer = await server.SendAsync(HttpMethod.Post, "", Bundle(entry));

        answer.Status.ShouldBe(400, answer.Text);
        answer.Expressions.ShouldBe([place]);
    }

    [Theory]
    [InlineData("""{"resourceType":"Bundle","type":"collection"}""")]
    [InlineData("""{"resourceType":"Patient"}""")]
    public async Task Base_PostOfAnythingElse_IsRefused(string body) => (await server.SendAsync(HttpMethod.Post, "", body)).Status.ShouldBe(400);

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
