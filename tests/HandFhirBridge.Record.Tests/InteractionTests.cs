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
        answer.Location!.ShouldEndWith("/_history/1");
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
        (await server.SendAsync(HttpMethod.Put, "Patient/p-del", With("del"))).Status.ShouldBe(201);
    }

    // R4 datatypes.html#decimal: precision is significant and kept. The published example also holds two numbers of 10^245,
    // which is more than a .NET decimal holds; they are refused rather than changed.
    [Fact]
    public async Task Read_Decimals_KeepEveryDigit()
    {
        var example = System.Text.Json.Nodes.JsonNode.Parse(RecordServer.Example("observation-decimal.json"))!;
        (await server.SendAsync(HttpMethod.Post, "Observation", example.ToJsonString())).Status.ShouldBe(400);
        var components = example["component"]!.AsArray();
        foreach (var huge in components.Where(c => c!.ToJsonString().Contains("245", StringComparison.Ordinal)).ToList())
        {
            components.Remove(huge);
        }

        var numbers = Values(example);
        numbers.Count.ShouldBeGreaterThan(3);
        var created = await server.SendAsync(HttpMethod.Post, "Observation", example.ToJsonString());
        created.Status.ShouldBe(201, created.Text);

        var read = (await server.GetAsync($"Observation/{created.Json["id"]}")).Json;
        var found = (await server.GetAsync($"Observation?_id={created.Json["id"]}")).Json["entry"]![0]!["resource"]!;
        foreach (var answer in new[] { read, found })
        {
            Values(answer).ShouldBe(numbers);
        }

        // As a decimal with its scale: 1E-22 may be written out, but 1.00 may not become 1.0.
        static List<string> Values(System.Text.Json.Nodes.JsonNode observation) =>
        [
            .. observation["component"]!.AsArray().Select(c => decimal.Parse(
                c!["valueQuantity"]!["value"]!.ToJsonString(), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture)
                .ToString(System.Globalization.CultureInfo.InvariantCulture)),
        ];
    }

    [Theory]
    [InlineData("{", 400)]
    [InlineData("""{"resourceType":"Patient","unknown":1}""", 400)]
    [InlineData("""{"resourceType":"Patient","birthDate":"2026-13-01"}""", 400)]
    [InlineData("""{"resourceType":"Observation","status":"final","code":{"text":"x"}}""", 400)]
    public async Task Create_NotAPatient_IsRefusedWithAnOutcome(string body, int status)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient", body);

        answer.Status.ShouldBe(status);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
    }

    [Fact]
    public async Task Create_TooLarge_IsRefused() =>
        (await server.SendAsync(HttpMethod.Post, "Patient", new string(' ', 200_001))).Status.ShouldBe(413);

    [Fact]
    public async Task Read_UnknownType_IsNotFound() => (await server.GetAsync("Cat/1")).Status.ShouldBe(404);

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
