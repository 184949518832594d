namespace HandFhirBridge.Record.Tests;

public sealed class InteractionTests(RecordServer server) : IClassFixture<RecordServer>
{
    private const string Patient = """{"resourceType":"Patient","id":"p-ID","identifier":[{"system":"urn:s","value":"ID"}],"name":[{"family":"Example"}]}""";

    // R4 http.html#create: 201, Location with version, ETag; the client's id is not kept.
    [Fact]
    public async Task Create_NewResource_GetsAnIdVersionAndLocation()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient", With("create"));

        answer.Status.ShouldBe(201);
        answer.ETag.ShouldBe("W/\"1\"");
        answer.Location!.ShouldBe($"http://localhost/clinic/fhir/Patient/{answer.Json["id"]}/_history/1");
        answer.Message.Content.Headers.LastModified.ShouldNotBeNull();
        answer.Json["meta"]!["versionId"]!.ToString().ShouldBe("1");
        ((string)answer.Json["id"]!).ShouldNotBe("p-create");
        (await server.GetAsync(answer.Location!)).Status.ShouldBe(200);
    }

    // R4 http.html#ccreate: no match creates, one match is left alone (200), more are refused (412).
    [Fact]
    public async Task ConditionalCreate_OneMatch_WritesNothing()
    {
        var first = await server.SendAsync(HttpMethod.Post, "Patient", With("cc"), ("If-None-Exist", "identifier=urn:s|cc"));
        var second = await server.SendAsync(HttpMethod.Post, "Patient", With("cc"), ("If-None-Exist", "identifier=urn:s|cc"));

        (first.Status, second.Status).ShouldBe((201, 200));
        (await server.GetAsync("Patient?identifier=urn:s|cc")).Ids.Count().ShouldBe(1);

        await server.SendAsync(HttpMethod.Post, "Patient", With("cc"));
        (await server.SendAsync(HttpMethod.Post, "Patient", With("cc"), ("If-None-Exist", "identifier=urn:s|cc"))).Status.ShouldBe(412);
    }

    // R4 http.html#ccreate warns of races; this server has none, because the condition is tested under the write lock.
    [Fact]
    public async Task ConditionalCreate_ManyAtOnce_LeavesOne()
    {
        var answers = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ =>
            server.SendAsync(HttpMethod.Post, "Patient", With("race"), ("If-None-Exist", "identifier=urn:s|race"))));

        answers.Count(a => a.Status == 201).ShouldBe(1);
        answers.Count(a => a.Status == 200).ShouldBe(15);
    }

    // R4 http.html#upsert and #concurrency: update as create, If-Match, 412 on a stale version.
    [Fact]
    public async Task Update_CreatesThenVersionsAndRefusesAStaleVersion()
    {
        (await server.SendAsync(HttpMethod.Put, "Patient/p-up", With("up"))).Status.ShouldBe(201);
        var second = await server.SendAsync(HttpMethod.Put, "Patient/p-up", With("up"), ("If-Match", "W/\"1\""));
        (second.Status, second.ETag).ShouldBe((200, "W/\"2\""));
        (await server.SendAsync(HttpMethod.Put, "Patient/p-up", With("up"), ("If-Match", "W/\"1\""))).Status.ShouldBe(412);
        (await server.SendAsync(HttpMethod.Put, "Patient/other", With("up"))).Status.ShouldBe(400);
        (await server.GetAsync("Patient/p-up/_history")).Json["total"]!.GetValue<int>().ShouldBe(2);
    }

    // R4 http.html#delete and #read: 410 after a deletion, 404 for what never was.
    [Fact]
    public async Task Delete_ThenRead_IsGone()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/p-del", With("del"));
        (await server.SendAsync(HttpMethod.Delete, "Patient/p-del")).Status.ShouldBe(204);

        (await server.GetAsync("Patient/p-del")).Status.ShouldBe(410);
        (await server.GetAsync("Patient/p-never")).Status.ShouldBe(404);
        (await server.GetAsync("Patient?identifier=urn:s|del")).Ids.ShouldBeEmpty();
        (await server.GetAsync("Patient/p-del/_history/1")).Status.ShouldBe(200);
        (await server.GetAsync("Patient/p-del/_history/2")).Status.ShouldBe(410);
        (await server.SendAsync(HttpMethod.Delete, "Patient/p-del")).Status.ShouldBe(204);
        (await server.GetAsync("Patient/p-del/_history")).Json["entry"]!.AsArray().Select(e => (string)e!["request"]!["method"]!).ShouldBe(["DELETE", "PUT"]);
        (await server.SendAsync(HttpMethod.Put, "Patient/p-del", With("del"))).Status.ShouldBe(201);
    }

    // R4 datatypes.html#decimal: "the precision of the decimal value has significance"; the published example, every number in its very characters.
    [Fact]
    public async Task Read_Decimals_KeepEveryDigit()
    {
        var example = RecordServer.Example("observation-decimal.json");
        var created = await server.SendAsync(HttpMethod.Post, "Observation", example);
        created.Status.ShouldBe(201, created.Text);

        var id = (string)created.Json["id"]!;
        var found = (await server.GetAsync($"Observation?_id={id}")).Json["entry"]![0]!["resource"]!;
        foreach (var answer in new[] { created.Json, (await server.GetAsync($"Observation/{id}")).Json, found })
        {
            Numbers(answer).ShouldBe(Numbers(System.Text.Json.Nodes.JsonNode.Parse(example)!));
        }

        Numbers(found).ShouldContain("1.00");
        Numbers(found).ShouldContain("-1.000000000000000000E+245");

        static List<string> Numbers(System.Text.Json.Nodes.JsonNode observation) =>
            [.. observation["component"]!.AsArray().Select(c => c!["valueQuantity"]!["value"]!.ToJsonString())];
    }

    // The same through a transaction, where resources are taken out of a bundle; 12.40 is not 12.4.
    [Fact]
    public async Task Transaction_Decimals_KeepEveryDigit()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "", """
            {"resourceType":"Bundle","type":"transaction","entry":[
              {"resource":{"resourceType":"Observation","id":"dec","status":"final","code":{"text":"x"},"valueQuantity":{"value":12.40,"unit":"s"}},
               "request":{"method":"PUT","url":"Observation/dec"}}]}
            """);

        answer.Status.ShouldBe(200, answer.Text);
        (await server.GetAsync("Observation/dec")).Text.ShouldContain("\"value\":12.40,");
        (await server.GetAsync("Observation?_id=dec")).Text.ShouldContain("\"value\":12.40,");
    }

    // R4 http.html#create: 400 where a resource "could not be parsed or failed basic FHIR validation rules", with the place of each fault.
    [Theory]
    [InlineData("", "")]
    [InlineData("{", "")]
    [InlineData("[1]", "")]
    [InlineData("\"text\"", "")]
    [InlineData("""{"resourceType":"Patient","active":true,"active":false}""", "")]
    [InlineData("""{"resourceType":"Cat"}""", "")]
    [InlineData("""{"resourceType":"Patient","text":{"status":"generated","div":"<div xmlns=\"http://www.w3.org/1999/xhtml\"><script/></div>"} }""", "")]
    [InlineData("""{"resourceType":"Patient","unknown":1}""", "Patient.unknown")]
    [InlineData("""{"resourceType":"Patient","birthDate":"2026-02-30"}""", "Patient.birthDate")]
    [InlineData("""{"resourceType":"Patient","active":"yes"}""", "Patient.active")]
    [InlineData("""{"resourceType":"Patient","gender":"none"}""", "Patient.gender")]
    [InlineData("""{"resourceType":"Patient","name":[]}""", "Patient.name[0]")]
    [InlineData("""{"resourceType":"Patient","link":[{"type":"seealso"}]}""", "Patient.link[0].other")]
    [InlineData("""{"resourceType":"Observation","status":"final","code":{"text":"x"}}""", "")]
    public async Task Create_Malformed_IsRefusedWithItsPlace(string body, string place)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient", body);

        answer.Status.ShouldBe(400, answer.Text);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
        (place.Length == 0 || answer.Expressions.Contains(place)).ShouldBeTrue(answer.Text);
    }

    [Fact]
    public async Task Create_Malformed_NamesEveryFault() => (await server.SendAsync(
        HttpMethod.Post, "Patient", """{"resourceType":"Patient","active":1,"birthDate":"x"}""")).Expressions.ShouldBe(["Patient.active", "Patient.birthDate"], ignoreOrder: true);

    // R4 http.html#return: minimal, representation, OperationOutcome; nothing said gives the resource.
    [Theory]
    [InlineData("return=minimal", null)]
    [InlineData("return=representation", "Patient")]
    [InlineData("return=OperationOutcome", "OperationOutcome")]
    [InlineData("respond-async", "Patient")]
    public async Task Create_Preferring_ReturnsWhatWasAsked(string prefer, string? type)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient", With("prefer"), ("Prefer", prefer));

        answer.Status.ShouldBe(201);
        (type is null ? answer.Text : (string)answer.Json["resourceType"]!).ShouldBe(type ?? "");
        answer.Location.ShouldNotBeNull();
    }

    // R4 http.html#mime-type: 415 for a body, 406 for an answer, in a format that is not spoken here.
    [Theory]
    [InlineData("Content-Type", "text/turtle", 415)]
    [InlineData("Content-Type", "application/fhir+json; charset=utf-8", 201)]
    [InlineData("Content-Type", "application/fhir+json; charset=iso-8859-1", 415)]
    [InlineData("Content-Type", "text/plain", 415)]
    [InlineData("Content-Type", "application/json", 201)]
    [InlineData("Accept", "text/turtle", 406)]
    [InlineData("Accept", "application/fhir+json;q=0", 406)]
    [InlineData("Accept", "text/html, */*;q=0.1", 201)]
    [InlineData("Accept", "application/fhir+json; fhirVersion=4.0", 201)]
    public async Task Create_InFormat_IsNegotiated(string header, string value, int status) =>
        (await server.SendAsync(HttpMethod.Post, "Patient", With("format"), (header, value))).Status.ShouldBe(status);

    [Theory]
    [InlineData("Patient?_format=json", 200)]
    [InlineData("Patient?_format=application/fhir%2Bjson", 200)]
    [InlineData("Patient?_format=application/fhir+json", 200)] // a plus that was not escaped
    [InlineData("Patient?_format=ttl", 406)]
    public async Task Search_WithFormat_IsNegotiated(string url, int status) => (await server.GetAsync(url)).Status.ShouldBe(status);

    [Theory]
    [InlineData("GET", "Cat/1", 404)]
    [InlineData("GET", "Cat?x=1", 404)]
    [InlineData("GET", "Patient/never", 404)]
    [InlineData("GET", "Patient/never/_history", 404)]
    [InlineData("GET", "Patient/never/_history/x", 404)]
    [InlineData("GET", "Patient/a/b/c/d", 404)]
    [InlineData("GET", "Patient/$everything", 404)]
    [InlineData("PATCH", "Patient/never", 405)]
    [InlineData("DELETE", "Patient", 405)]
    [InlineData("GET", "", 405)]
    public async Task Request_Unserved_IsAnsweredWithAnOutcome(string method, string url, int status)
    {
        var answer = await server.SendAsync(HttpMethod.Parse(method), url);

        answer.Status.ShouldBe(status, answer.Text);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
    }

    // R4 http.html#cread: If-None-Match with the version that stands answers 304.
    [Fact]
    public async Task Read_VersionAlreadyKnown_IsNotSentAgain()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/p-known", With("known"));

        var again = await server.SendAsync(HttpMethod.Get, "Patient/p-known", null, ("If-None-Match", "W/\"1\""));
        (again.Status, again.Text).ShouldBe((304, ""));
        (await server.SendAsync(HttpMethod.Get, "Patient/p-known", null, ("If-None-Match", "W/\"2\""))).Status.ShouldBe(200);
    }

    // R4 http.html#cread; RFC 9110, 13.1.3: a date that is not older than the version answers 304, but only where no ETag was sent.
    [Fact]
    public async Task Read_NotChangedSince_IsNotSentAgain()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/p-since", With("since"));
        var now = (await server.GetAsync("Patient/p-since")).Message.Content.Headers.LastModified!.Value;

        var again = await server.SendAsync(HttpMethod.Get, "Patient/p-since", null, ("If-Modified-Since", now.ToString("R")));
        (again.Status, again.Text).ShouldBe((304, ""));
        (await server.SendAsync(HttpMethod.Get, "Patient/p-since", null, ("If-Modified-Since", now.AddSeconds(-1).ToString("R")))).Status.ShouldBe(200);
        (await server.SendAsync(HttpMethod.Get, "Patient/p-since", null, ("If-Modified-Since", now.ToString("R")), ("If-None-Match", "W/\"7\""))).Status.ShouldBe(200);
    }

    // RFC 9110, 13.1.2: "*" is false where the resource exists, and the method must then not be performed (412).
    [Fact]
    public async Task Update_OnlyWhereNothingStands_LeavesWhatStands()
    {
        (await server.SendAsync(HttpMethod.Put, "Patient/p-new", With("new"), ("If-None-Match", "*"))).Status.ShouldBe(201);
        (await server.SendAsync(HttpMethod.Put, "Patient/p-new", With("new"), ("If-None-Match", "*"))).Status.ShouldBe(412);
        (await server.GetAsync("Patient/p-new")).ETag.ShouldBe("W/\"1\"");

        await server.SendAsync(HttpMethod.Delete, "Patient/p-new");
        (await server.SendAsync(HttpMethod.Put, "Patient/p-new", With("new"), ("If-None-Match", "*"))).Status.ShouldBe(201);
    }

    // R4 http.html#cond-update: no match creates, one match is updated, an id of its own must be the match's, several are refused.
    [Fact]
    public async Task ConditionalUpdate_CreatesThenUpdatesTheMatch()
    {
        const string body = """{"resourceType":"Patient","identifier":[{"system":"urn:s","value":"cu"}]}""";
        var first = await server.SendAsync(HttpMethod.Put, "Patient?identifier=urn:s|cu", body);
        var second = await server.SendAsync(HttpMethod.Put, "Patient?identifier=urn:s|cu", body);

        (first.Status, second.Status, second.ETag).ShouldBe((201, 200, "W/\"2\""));
        ((string)second.Json["id"]!).ShouldBe((string)first.Json["id"]!);
        (await server.SendAsync(HttpMethod.Put, "Patient?identifier=urn:s|cu", With("cu"))).Status.ShouldBe(400);
        (await server.SendAsync(HttpMethod.Put, "Patient", body)).Status.ShouldBe(412);
        await server.SendAsync(HttpMethod.Post, "Patient", body);
        (await server.SendAsync(HttpMethod.Put, "Patient?identifier=urn:s|cu", body)).Status.ShouldBe(412);
    }

    // R4 http.html#update: an unknown condition would be no condition at all.
    [Fact]
    public async Task ConditionalCreate_UnknownParameter_IsRefused() => (await server.SendAsync(
        HttpMethod.Post, "Patient", With("unk"), ("If-None-Exist", "shoe=1"), ("Prefer", "handling=lenient"))).Status.ShouldBe(400);

    [Fact]
    public async Task Create_TooLarge_IsRefused() =>
        (await server.SendAsync(HttpMethod.Post, "Patient", new string(' ', 200_001))).Status.ShouldBe(413);

    // Every published example can be stored and read back unchanged but for id and meta.
    [Theory]
    [InlineData("patient-example.json")]
    [InlineData("observation-example.json")]
    [InlineData("diagnosticreport-example.json")]
    [InlineData("device-example.json")]
    [InlineData("organization-example.json")]
    [InlineData("practitioner-example.json")]
    [InlineData("practitionerrole-example.json")]
    [InlineData("questionnaireresponse-example-bluebook.json")]
    public async Task Update_PublishedExample_ReadsBackTheSame(string name)
    {
        var written = System.Text.Json.Nodes.JsonNode.Parse(RecordServer.Example(name))!;
        var url = $"{written["resourceType"]}/{written["id"]}";
        (await server.SendAsync(HttpMethod.Put, url, written.ToJsonString())).Status.ShouldBeInRange(200, 201);

        var read = (await server.GetAsync(url)).Json;
        read.AsObject().Remove("meta");
        written.AsObject().Remove("meta");
        System.Text.Json.Nodes.JsonNode.DeepEquals(read, written).ShouldBeTrue();
    }

    private static string With(string id) => Patient.Replace("ID", id, StringComparison.Ordinal);
}
