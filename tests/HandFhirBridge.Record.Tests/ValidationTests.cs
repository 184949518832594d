namespace HandFhirBridge.Record.Tests;

// http://hl7.org/fhir/OperationDefinition/Resource-validate, as of R4; quoted are its words.
public sealed class ValidationTests(RecordServer server) : IClassFixture<RecordServer>
{
    private const string Sound = """{"resourceType":"Patient","id":"v","active":true}""";

    // "This operation returns a 200 OK whether or not the resource is valid." The faults, and their places, are those of a refused write.
    [Theory]
    [InlineData(Sound, "")]
    [InlineData("""{"resourceType":"Patient","unknown":1}""", "Patient.unknown")]
    [InlineData("""{"resourceType":"Patient","birthDate":"2026-02-30"}""", "Patient.birthDate")]
    [InlineData("""{"resourceType":"Patient","gender":"none"}""", "Patient.gender")]
    [InlineData("""{"resourceType":"Patient","link":[{"type":"seealso"}]}""", "Patient.link[0].other")]
    [InlineData("""{"resourceType":"Organization","active":true}""", "Organization")]
    public async Task Validate_AResource_IsAnsweredWithItsFaults(string resource, string fault)
    {
        var wrapped = $$"""{"resourceType":"Parameters","parameter":[{"name":"resource","resource":{{resource}} }]}""";
        foreach (var body in new[] { resource, wrapped })
        {
            var answer = await server.SendAsync(HttpMethod.Post, "Patient/$validate", body);

            answer.Status.ShouldBe(200, answer.Text);
            ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
            Errors(answer).ShouldBe(fault.Length == 0 ? [] : [fault], answer.Text);
        }

        (await server.SendAsync(HttpMethod.Post, "Patient", resource)).Status.ShouldBe(fault.Length == 0 ? 201 : 400);
    }

    // "A 4xx or 5xx error means that the validation itself could not be performed, and it is unknown whether the resource is valid or not."
    [Theory]
    [InlineData("POST", "Patient/$validate", "{", 400)]
    [InlineData("POST", "Patient/$validate", """{"resourceType":"Parameters"}""", 400)] // "Must be present unless the mode is delete"
    [InlineData("POST", "Patient/$validate?mode=delete", Sound, 400)] // "can only be used when the operation is invoked at the resource instance level"
    [InlineData("POST", "Patient/$validate?mode=update", Sound, 400)]
    [InlineData("POST", "Patient/$validate?mode=perhaps", Sound, 400)]
    [InlineData("POST", "Patient/$validate?shoe=1", Sound, 400)]
    [InlineData("POST", "Patient/v/$validate?mode=profile&profile=http://hl7.org/fhir/StructureDefinition/Patient", Sound, 400)] // "not provided as a parameter"
    [InlineData("GET", "Patient/v/$validate?mode=update", null, 400)]
    [InlineData("GET", "Patient/$validate", null, 400)]
    [InlineData("GET", "Patient/never/$validate", null, 404)]
    [InlineData("POST", "Cat/$validate", Sound, 404)]
    [InlineData("POST", "$validate", Sound, 404)] // system: false
    public async Task Validate_NotPossible_IsRefused(string method, string url, string? body, int status)
    {
        var answer = await server.SendAsync(HttpMethod.Parse(method), url, body);

        answer.Status.ShouldBe(status, answer.Text);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
    }

    // "If a profile is nominated, and the server cannot validate against the nominated profile, it SHALL return an error".
    [Theory]
    [InlineData("http://hl7.org/fhir/us/core/StructureDefinition/us-core-patient", 400)]
    [InlineData("http://hl7.org/fhir/StructureDefinition/Observation", 400)]
    [InlineData("http://hl7.org/fhir/StructureDefinition/Patient", 200)]
    [InlineData("http://hl7.org/fhir/StructureDefinition/Patient|4.0.1", 200)]
    public async Task Validate_AgainstAProfile_IsNeverIgnored(string profile, int status)
    {
        var wrapped = $$"""{"resourceType":"Parameters","parameter":[{"name":"resource","resource":{{Sound}} },{"name":"profile","valueUri":"{{profile}}"}]}""";

        foreach (var (url, body) in new[] { ("Patient/$validate", wrapped), ($"Patient/$validate?profile={Uri.EscapeDataString(profile)}", Sound) })
        {
            var answer = await server.SendAsync(HttpMethod.Post, url, body);
            answer.Status.ShouldBe(status, answer.Text);
            answer.Text.Contains(profile, StringComparison.Ordinal).ShouldBe(status == 400);
        }
    }

    // A profile that the resource claims was not looked at, and the answer must not pass for one that did.
    [Fact]
    public async Task Validate_OfAClaimedProfile_WarnsThatItIsNotKnown()
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient/$validate", """{"resourceType":"Patient","meta":{"profile":["http://clinic.example/p"]}}""");

        var warning = answer.Json["issue"]!.AsArray().Single(i => (string)i!["severity"]! == "warning")!;
        ((string)warning["expression"]![0]!).ShouldBe("Patient.meta.profile[0]");
        ((string)warning["details"]!["text"]!).ShouldContain("http://clinic.example/p");
    }

    // Every resource of a type conforms to the type's own definition (R4 profiling.html); that one was looked at.
    [Theory]
    [InlineData("http://hl7.org/fhir/StructureDefinition/Patient")]
    [InlineData("http://hl7.org/fhir/StructureDefinition/Patient|4.0.1")]
    public async Task Validate_OfTheClaimedTypeItself_WarnsOfNothing(string profile)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient/$validate", $$"""{"resourceType":"Patient","meta":{"profile":["{{profile}}"]} }""");

        answer.Json["issue"]!.AsArray().ShouldAllBe(issue => (string)issue!["severity"]! == "information");
    }

    // "create: ... checks that the content would be acceptable as a create (e.g. that the content would not violate any uniqueness constraints)":
    // the condition of a conditional create must not match more than one (R4 http.html#ccreate).
    [Fact]
    public async Task Validate_Create_TestsTheConditionAndWritesNothing()
    {
        const string twin = """{"resourceType":"Patient","identifier":[{"system":"urn:v","value":"twin"}]}""";
        const string condition = "identifier=urn:v|twin";
        await server.SendAsync(HttpMethod.Post, "Patient", twin);
        Errors(await server.SendAsync(HttpMethod.Post, "Patient/$validate?mode=create", twin, ("If-None-Exist", condition))).ShouldBeEmpty();
        await server.SendAsync(HttpMethod.Post, "Patient", twin);

        var answer = await server.SendAsync(HttpMethod.Post, "Patient/$validate?mode=create", twin, ("If-None-Exist", condition));

        (answer.Status, (string)answer.Json["issue"]![0]!["severity"]!).ShouldBe((200, "error"));
        (await server.GetAsync("Patient?" + condition)).Ids.Count().ShouldBe(2);
    }

    // "update: ... would accept it as an update against the nominated specific resource (e.g. ... checking version integrity if appropriate)".
    [Theory]
    [InlineData("W/\"1\"", """{"resourceType":"Patient","id":"up","active":false}""", false)]
    [InlineData("W/\"7\"", """{"resourceType":"Patient","id":"up","active":false}""", true)]
    [InlineData("W/\"1\"", """{"resourceType":"Patient","id":"other","active":false}""", true)]
    [InlineData("W/\"1\"", """{"resourceType":"Patient","id":"up","active":"no"}""", true)]
    public async Task Validate_Update_IsTriedAndUndone(string ifMatch, string body, bool fails)
    {
        await server.SendAsync(HttpMethod.Put, "Patient/up", """{"resourceType":"Patient","id":"up","active":true}""", ("If-None-Match", "*"));

        var answer = await server.SendAsync(HttpMethod.Post, "Patient/up/$validate?mode=update", body, ("If-Match", ifMatch));

        answer.Status.ShouldBe(200);
        answer.Json["issue"]!.AsArray().Any(i => (string)i!["severity"]! == "error").ShouldBe(fails, answer.Text);
        (await server.GetAsync("Patient/up")).ETag.ShouldBe("W/\"1\"");
    }

    // "delete: The server ignores the content, and checks that the nominated resource is allowed to be deleted".
    [Theory]
    [InlineData("W/\"1\"", false)]
    [InlineData("W/\"2\"", true)]
    public async Task Validate_Delete_IsTriedAndUndone(string ifMatch, bool fails)
    {
        await server.SendAsync(HttpMethod.Put, "Patient/del", """{"resourceType":"Patient","id":"del"}""", ("If-None-Match", "*"));

        var answer = await server.SendAsync(
            HttpMethod.Post, "Patient/del/$validate", """{"resourceType":"Parameters","parameter":[{"name":"mode","valueCode":"delete"}]}""", ("If-Match", ifMatch));

        answer.Status.ShouldBe(200, answer.Text);
        answer.Json["issue"]!.AsArray().Any(i => (string)i!["severity"]! == "error").ShouldBe(fails, answer.Text);
        (await server.GetAsync("Patient/del")).Status.ShouldBe(200);
    }

    // mode profile: "checks an existing resource (must be nominated by id, not provided as a parameter) as valid against the nominated profile".
    [Theory]
    [InlineData("")]
    [InlineData("?mode=profile&profile=http://hl7.org/fhir/StructureDefinition/Patient")]
    public async Task Validate_WhatStands_IsValidatedByItsId(string query)
    {
        await server.SendAsync(HttpMethod.Put, "Patient/stands", """{"resourceType":"Patient","id":"stands"}""");

        var answer = await server.GetAsync("Patient/stands/$validate" + query);

        answer.Status.ShouldBe(200, answer.Text);
        Errors(answer).ShouldBeEmpty();
    }

    private static List<string> Errors(RecordServer.Answer answer) =>
        [.. answer.Json["issue"]!.AsArray().Where(i => (string)i!["severity"]! == "error").Select(i => (string)i!["expression"]![0]!)];
}
