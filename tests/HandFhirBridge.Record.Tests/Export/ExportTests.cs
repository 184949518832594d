using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests.Export;

// FHIR Bulk Data Access 2.0 (http://hl7.org/fhir/uv/bulkdata/STU2/export.html); quoted is its text.
public sealed class ExportTests(ExportTests.Filled server) : IClassFixture<ExportTests.Filled>
{
    private const string OfP = "Encounter/e Group/alone Group/both Observation/p1 Organization/org Patient/p Practitioner/doc Provenance/seal";

    private RecordServer Record => server.Inner;

    [Theory]
    [InlineData("$export", "Encounter/e Group/alone Group/both Group/described Group/nested Observation/p1 Observation/q1 Organization/org Organization/other Patient/p Patient/q Practitioner/doc Provenance/seal")]
    // "The response SHALL be filtered to only include resources of the specified resource types(s)."
    [InlineData("$export?_type=Patient,Organization", "Organization/org Organization/other Patient/p Patient/q")]
    // "A client MAY repeat kick-off parameters that accept comma delimited values multiple times"
    [InlineData("$export?_type=Patient&_type=Organization", "Organization/org Organization/other Patient/p Patient/q")]
    [InlineData("$export?_type=Device", "")]
    // "resources outside of the patient compartment that are helpful in interpreting the patient data (such as Organization and Practitioner) MAY also be returned"
    [InlineData("Patient/$export", "Encounter/e Group/alone Group/both Observation/p1 Observation/q1 Organization/org Patient/p Patient/q Practitioner/doc Provenance/seal")]
    [InlineData("Patient/$export?_type=Observation", "Observation/p1 Observation/q1")]
    [InlineData("Group/alone/$export", OfP)]
    [InlineData("Group/nested/$export", OfP)]
    [InlineData("Group/both/$export?_type=Patient,Provenance", "Patient/p Patient/q Provenance/seal")]
    // "The server SHALL accept the full content type of application/fhir+ndjson as well as the abbreviated representations"
    [InlineData("$export?_type=Patient&_outputFormat=application%2Ffhir%2Bndjson", "Patient/p Patient/q")]
    [InlineData("$export?_type=Patient&_outputFormat=application/fhir+ndjson", "Patient/p Patient/q")]
    [InlineData("$export?_type=Patient&_outputFormat=application/ndjson", "Patient/p Patient/q")]
    [InlineData("$export?_type=Patient&_outputFormat=ndjson", "Patient/p Patient/q")]
    [InlineData("$export?_type=Patient&_since=2099-01-01T00:00:00Z", "")]
    [InlineData("$export?_type=Patient&_since=2020-01-01T00:00:00%2B02:00", "Patient/p Patient/q")]
    public async Task Export_OfALevel_GivesItsResources(string url, string expected) =>
        (await (await Record.ExportAsync(url)).ReferencesAsync()).ShouldBe(expected);

    // What $everything gives of the members, without the Provenance of their data, which it does not have to give.
    [Fact]
    public async Task Export_OfAGroupOfOne_GivesWhatEverythingGives()
    {
        var everything = (await Record.GetAsync("Patient/p/$everything")).Json["entry"]!.AsArray().Select(e => $"{e!["resource"]!["resourceType"]}/{e["resource"]!["id"]}");

        string.Join(' ', everything.Append("Provenance/seal").Order(StringComparer.Ordinal)).ShouldBe(OfP);
    }

    // "A server ... MAY support POST requests that supply parameters using the FHIR Parameters Resource"; "the server SHALL NOT return
    // resources in the patient compartments belonging to patients outside of this list".
    [Theory]
    [InlineData("$export", """{"name":"_type","valueString":"Patient"},{"name":"_since","valueInstant":"2020-01-01T00:00:00Z"}""", "Patient/p Patient/q")]
    [InlineData("Patient/$export", """{"name":"patient","valueReference":{"reference":"Patient/q"}}""", "Group/both Observation/q1 Patient/q")]
    [InlineData("Group/both/$export", """{"name":"patient","valueReference":{"reference":"Patient/p"}},{"name":"_type","valueString":"Observation"}""", "Observation/p1")]
    public async Task Export_ByPost_TakesParameters(string url, string parameters, string expected) =>
        (await (await Record.ExportAsync(url, $$"""{"resourceType":"Parameters","parameter":[{{parameters}}]}""")).ReferencesAsync()).ShouldBe(expected);

    [Fact]
    public async Task Manifest_OfAnExport_HasItsFields()
    {
        var manifest = await Record.ExportAsync("$export?_type=Patient,Device");

        ((string?)manifest.Json["request"]).ShouldBe("http://localhost/clinic/fhir/$export?_type=Patient,Device");
        ((bool?)manifest.Json["requiresAccessToken"]).ShouldBe(false);
        // "If no data are found for a resource, the server SHOULD NOT return an output item for that resource"
        var file = manifest.Files("output").ShouldHaveSingleItem();
        ((string?)file["type"], (int?)file["count"]).ShouldBe(("Patient", 2));
        Uri.IsWellFormedUriString((string)file["url"]!, UriKind.Absolute).ShouldBeTrue();
        manifest.Files("error").ShouldBeEmpty();
        manifest.Json["deleted"].ShouldBeNull();
        manifest.Expires.ShouldNotBeNull();
        // "FHIR instant"
        Hl7.Fhir.Model.Instant.IsValidValue(manifest.TransactionTime).ShouldBeTrue();
    }

    // R4 datatypes.html#decimal: the digits are part of the value.
    [Fact]
    public async Task Export_OfDecimals_KeepsTheirDigits() =>
        string.Concat(await (await Record.ExportAsync("$export?_type=Observation")).LinesAsync()).ShouldContain("\"value\":12.40");

    // "A server SHOULD provide ... SHALL be a FHIR OperationOutcome resource in JSON format"
    [Theory]
    [InlineData("$export?_type=Shoe", 400, "Shoe")]
    [InlineData("$export?_type=Patient,Shoe", 400, "Shoe")]
    [InlineData("$export?_since=yesterday", 400, "_since")]
    [InlineData("$export?_since=2026-03-01", 400, "_since")]
    [InlineData("$export?_outputFormat=application/fhir%2Bxml", 400, "_outputFormat")]
    [InlineData("$export?_elements=id", 400, "_elements")]
    [InlineData("$export?_typeFilter=Patient%3Factive%3Dtrue", 400, "_typeFilter")]
    [InlineData("Group/both/$export?includeAssociatedData=LatestProvenanceResources", 400, "includeAssociatedData")]
    // "patient (POST requests only)"
    [InlineData("Patient/$export?patient=Patient/p", 400, "patient")]
    [InlineData("Group/never/$export", 404, "Group/never")]
    [InlineData("Group/described/$export", 400, "actual")]
    public async Task KickOff_NotUnderstood_IsRefusedByName(string url, int status, string named)
    {
        var answer = await Record.KickOffAsync(url);

        answer.Status.ShouldBe(status, answer.Text);
        ((string?)answer.Json["resourceType"]).ShouldBe("OperationOutcome");
        answer.Text.ShouldContain(named);
    }

    // "If a client requests patients who are not present on the server (or ... who are not members of the group), the server SHOULD return details"
    [Theory]
    [InlineData("Patient/$export", "Patient/never")]
    [InlineData("Group/alone/$export", "Patient/q")]
    [InlineData("$export", "Patient/p")]
    [InlineData("Patient/$export", "Practitioner/doc")]
    public async Task KickOff_OfAPatientElsewhere_IsRefused(string url, string patient)
    {
        // Leaving the parameter out would give others' data: not even where the client is lenient.
        var answer = await Record.KickOffAsync(url, $$"""{"resourceType":"Parameters","parameter":[{"name":"patient","valueReference":{"reference":"{{patient}}"} }]}""", "respond-async, handling=lenient");

        answer.Status.ShouldBe(400, answer.Text);
    }

    // "the server SHOULD include a FHIR OperationOutcome resource for each of these parameters"
    [Fact]
    public async Task KickOff_Lenient_LeavesOutAndSaysSo()
    {
        var begun = await Record.KickOffAsync("$export?_type=Patient,Shoe&_elements=id", null, "respond-async; handling=lenient");
        begun.Status.ShouldBe(202, begun.Text);
        var manifest = await Record.DoneAsync(begun.Message.Content.Headers.GetValues("Content-Location").Single());

        (await manifest.ReferencesAsync()).ShouldBe("Patient/p Patient/q");
        var outcomes = await manifest.LinesAsync("error");
        outcomes.Count.ShouldBe(2);
        outcomes[0].ShouldContain("Shoe");
        outcomes[1].ShouldContain("_elements");
    }

    [Fact]
    public async Task KickOff_WithTypesThatAreNone_IsRefusedEvenLeniently() =>
        (await Record.KickOffAsync("$export?_type=Shoe", null, "respond-async, handling=lenient")).Status.ShouldBe(400);

    [Theory]
    [InlineData("")]
    [InlineData("handling=lenient")]
    public async Task KickOff_WithoutRespondAsync_IsRefused(string prefer)
    {
        var answer = await Record.KickOffAsync("$export", null, prefer);

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain("Prefer: respond-async");
    }

    [Fact]
    public async Task KickOff_ThatDoesNotTakeJson_IsRefused() =>
        (await Record.SendAsync(HttpMethod.Get, "$export", null, ("Accept", "text/html"), ("Prefer", "respond-async"))).Status.ShouldBe(406);

    // Members that have left or are gone are no members; a member that is not here is told.
    [Fact]
    public async Task Export_OfAGroup_LeavesOutWhoLeftAndTellsWhoIsMissing()
    {
        await Record.PutAsync("""{"resourceType":"Group","id":"changing","type":"person","actual":true,"member":[{"entity":{"reference":"Patient/q"},"inactive":true},{"entity":{"reference":"Patient/elsewhere"}}]}""");
        try
        {
            var manifest = await Record.ExportAsync("Group/changing/$export?_type=Patient");

            (await manifest.ReferencesAsync()).ShouldBe("");
            (await manifest.LinesAsync("error")).ShouldHaveSingleItem().ShouldContain("Patient/elsewhere is a member");
        }
        finally
        {
            await Record.SendAsync(HttpMethod.Delete, "Group/changing");
        }
    }

    // CapabilityStatement-bulk-data of the guide: the three operations, named export, with these definitions.
    [Fact]
    public async Task Metadata_ClaimsTheThreeLevels()
    {
        var metadata = (await Record.GetAsync("metadata")).Json;
        var rest = metadata["rest"]![0]!;
        IEnumerable<string> Definitions(JsonNode? operations) => (operations?.AsArray() ?? []).Where(o => (string?)o!["name"] == "export").Select(o => (string)o!["definition"]!);

        Definitions(rest["operation"]).ShouldBe(["http://hl7.org/fhir/uv/bulkdata/OperationDefinition/export"]);
        rest["resource"]!.AsArray().SelectMany(r => Definitions(r!["operation"]).Select(d => $"{r["type"]} {d}")).ShouldBe(
            ["Group http://hl7.org/fhir/uv/bulkdata/OperationDefinition/group-export", "Patient http://hl7.org/fhir/uv/bulkdata/OperationDefinition/patient-export"], ignoreOrder: true);
        metadata["instantiates"]!.AsArray().Select(i => (string)i!).ShouldBe(["http://hl7.org/fhir/uv/bulkdata/CapabilityStatement/bulk-data"]);
    }

    /// <summary>Two patients, one with a Provenance that names the observation alone.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new() { Options = path => new() { DatabasePath = path, MaxKeptExports = 1000, MaxRunningExports = 1000 } };

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                """{"resourceType":"Organization","id":"org"}""",
                """{"resourceType":"Organization","id":"other"}""",
                """{"resourceType":"Practitioner","id":"doc"}""",
                """{"resourceType":"Patient","id":"p","managingOrganization":{"reference":"Organization/org"}}""",
                """{"resourceType":"Patient","id":"q"}""",
                """{"resourceType":"Encounter","id":"e","status":"finished","class":{"code":"AMB"},"subject":{"reference":"http://localhost/clinic/fhir/Patient/p"}}""",
                """{"resourceType":"Observation","id":"p1","status":"final","code":{"text":"x"},"subject":{"reference":"Patient/p"},"performer":[{"reference":"Practitioner/doc"}],"valueQuantity":{"value":12.40}}""",
                """{"resourceType":"Observation","id":"q1","status":"final","code":{"text":"x"},"subject":{"reference":"Patient/q"}}""",
                """{"resourceType":"Provenance","id":"seal","target":[{"reference":"Observation/p1"}],"recorded":"2026-03-01T08:00:00Z","agent":[{"who":{"reference":"Practitioner/doc"}}]}""",
                """{"resourceType":"Group","id":"both","type":"person","actual":true,"member":[{"entity":{"reference":"Patient/p"}},{"entity":{"reference":"Patient/q"}}]}""",
                """{"resourceType":"Group","id":"alone","type":"person","actual":true,"member":[{"entity":{"reference":"Patient/p"}}]}""",
                """{"resourceType":"Group","id":"nested","type":"person","actual":true,"member":[{"entity":{"reference":"Group/alone"}},{"entity":{"reference":"Group/nested"}}]}""",
                """{"resourceType":"Group","id":"described","type":"person","actual":false}""");
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();
    }
}
