using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// R4 OperationDefinition/Observation-lastn and Patient-everything; quoted are their descriptions.
public sealed class OperationTests(OperationTests.Filled server) : IClassFixture<OperationTests.Filled>
{
    // The table in the description of $lastn: "Observation.code for observation a, b, c" and the "number of groups".
    [Theory]
    [InlineData("t1", "a", "b", "c", 3)]
    [InlineData("t2", "a", "b", "a,c", 2)]
    [InlineData("t3", "a", "b", "a,b", 1)] // "SHALL follow the transitive property of equality"
    [InlineData("t4", "'textM'", "'Text'", "'t e x t'", 3)] // "Text only codes SHALL be treated and grouped based on the text"
    public async Task Last_OfCodes_GroupsAsTheTableSays(string patient, string first, string second, string third, int groups)
    {
        await server.Inner.PutAsync($$"""{"resourceType":"Patient","id":"{{patient}}"}""");
        foreach (var (i, code) in new[] { first, second, third }.Index())
        {
            await server.Inner.PutAsync(Observation($"{patient}-{i}", patient, Code(code), $"2026-01-0{i + 1}"));
        }

        (await Ids($"Observation/$lastn?patient={patient}&category=activity")).Count.ShouldBe(groups);
    }

    [Theory]
    // "If no maximum number is given then only the most recent Observation in each group is returned"; "Sorted from most recent to the oldest".
    [InlineData("patient=p&category=activity", "w5 g2")]
    [InlineData("subject=Patient/p&code=urn:c|grip", "g2")]
    [InlineData("subject=Patient/p&code=urn:c|grip,urn:c|weight&max=2", "w5 w4 g2 g1")]
    // "4 Observations instead of 3 if the 3rd and 4th most recent observation had the same effective time"
    [InlineData("patient=p&code=urn:c|weight&max=3", "w5 w4 w2 w3")]
    [InlineData("patient=p&code=urn:c|weight&max=9", "w5 w4 w2 w3 w1")]
    // "Filtered by additional parameters"
    [InlineData("patient=p&code=urn:c|weight&date=lt2026-03-03", "w1")]
    // "If not explicitly filtered by status then will include statuses of 'entered-in-error'"
    [InlineData("patient=p&code=urn:c|weight&status=final", "w4")]
    // "If there are no matches, the lastn query SHALL return an empty search set with no error"
    [InlineData("patient=p&code=urn:c|none", "")]
    [InlineData("patient=p&code-value-quantity=weight$gt0", "w5")]
    public async Task Last_OfAPatient_GivesTheLatestOfEachCode(string query, string ids) =>
        string.Join(' ', await Ids($"Observation/$lastn?{query}")).ShouldBe(ids);

    [Theory]
    [InlineData("code=urn:c|grip", "subject")]
    [InlineData("patient=p", "category")]
    [InlineData("patient=p&status=final", "category")]
    [InlineData("patient=p&category=activity&max=0", "max")]
    [InlineData("patient=p&category=activity&max=two", "max")]
    [InlineData("patient=p&category=activity&_sort=date", "_sort")]
    [InlineData("patient=p&category=activity&_count=3", "_count")]
    [InlineData("patient=p&category=activity&shoe=3", "shoe")]
    public async Task Last_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.Inner.GetAsync($"Observation/$lastn?{query}");

        answer.Status.ShouldBe(400, answer.Text);
        answer.Text.ShouldContain(named);
    }

    // R4 operations.html#request: the same by POST of Parameters.
    [Fact]
    public async Task Last_ByPost_IsTheSame()
    {
        var answer = await server.Inner.SendAsync(HttpMethod.Post, "Observation/$lastn", """
            {"resourceType":"Parameters","parameter":[{"name":"patient","valueString":"p"},{"name":"category","valueString":"activity"},{"name":"max","valuePositiveInt":2}]}
            """);

        answer.Ids.ShouldBe(["w5", "w4", "g2", "g1"]);
        answer.Json["total"]!.GetValue<int>().ShouldBe(4);
        answer.Link("self")!.ShouldBe("http://localhost/clinic/fhir/Observation/$lastn?patient=p&category=activity&max=2");
    }

    // "At a minimum, the patient resource(s) itself is returned, along with any other resources that the server has that are related to the
    // patient(s)"; "the server also returns whatever resources are needed to support the records - e.g. linked practitioners".
    [Theory]
    [InlineData("", "enc g1 g2 grp p pract w1 w2 w3 w4 w5")]
    [InlineData("?_type=Patient,Practitioner", "p pract")]
    // "The date range relates to care dates, not record currency dates"
    [InlineData("?start=2026-03-04&end=2026-03-04&_type=Observation", "w4")]
    [InlineData("?start=2026-03-05&_type=Observation", "w5")]
    // "the _since parameter is based on record time"
    [InlineData("?_since=2099-01-01", "")]
    [InlineData("?_since=2020-01-01&_type=Patient", "p")]
    public async Task Everything_OfAPatient_GivesItsRecordAndNoOther(string query, string ids)
    {
        var answer = await server.Inner.GetAsync($"Patient/p/$everything{query}");

        answer.Status.ShouldBe(200, answer.Text);
        string.Join(' ', answer.Ids.Order(StringComparer.Ordinal)).ShouldBe(ids);
        ((string)answer.Json["type"]!).ShouldBe("searchset");
    }

    [Theory]
    [InlineData("never/$everything", 404)]
    [InlineData("p/$everything?shoe=1", 400)]
    [InlineData("p/$everything?_type=Shoe", 400)]
    [InlineData("p/$everything?start=yesterday", 400)]
    public async Task Everything_NotUnderstood_IsRefused(string url, int status) => (await server.Inner.GetAsync($"Patient/{url}")).Status.ShouldBe(status);

    [Fact]
    public async Task Metadata_ListsTheOperations()
    {
        var types = (await server.Inner.GetAsync("metadata")).Json["rest"]![0]!["resource"]!.AsArray();

        types.SelectMany(t => t!["operation"]?.AsArray() ?? []).Select(o => (string)o!["definition"]!).Where(d => !d.Contains("/bulkdata/") && !d.EndsWith("/Resource-validate", StringComparison.Ordinal)).ShouldBe(
            ["http://hl7.org/fhir/OperationDefinition/Observation-lastn", "http://hl7.org/fhir/OperationDefinition/Observation-stats", "http://hl7.org/fhir/OperationDefinition/Patient-everything"]);
    }

    private async Task<List<string>> Ids(string url)
    {
        var answer = await server.Inner.GetAsync(url);
        answer.Status.ShouldBe(200, answer.Text);
        return [.. answer.Ids];
    }

    private static string Code(string code) => code.StartsWith('\'')
        ? $$"""{"text":"{{code.Trim('\'')}}"}"""
        : new JsonObject { ["coding"] = new JsonArray([.. code.Split(',').Select(c => new JsonObject { ["system"] = "urn:c", ["code"] = c })]) }.ToJsonString();

    private static string Observation(string id, string patient, string code, string at, string status = "final", string more = "") =>
        $$"""
        {"resourceType":"Observation","id":"{{id}}","status":"{{status}}","category":[{"coding":[{"code":"activity"}]}],"code":{{code}},
         "subject":{"reference":"Patient/{{patient}}"},"effectiveDateTime":"{{at}}","valueQuantity":{"value":1}{{more}} }
        """;

    /// <summary>Two patients with a course each.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                """{"resourceType":"Practitioner","id":"pract"}""",
                """{"resourceType":"Practitioner","id":"stranger"}""",
                """{"resourceType":"Patient","id":"p"}""",
                """{"resourceType":"Patient","id":"q"}""",
                Observation("w1", "p", Code("weight"), "2026-03-01"),
                Observation("w2", "p", Code("weight"), "2026-03-03"),
                Observation("w3", "p", Code("weight"), "2026-03-03"),
                Observation("w4", "p", Code("weight"), "2026-03-04"),
                Observation("w5", "p", Code("weight"), "2026-03-05", "entered-in-error"),
                Observation("g1", "p", Code("grip"), "2026-02-01"),
                Observation("g2", "p", Code("grip"), "2026-02-02", more: ""","performer":[{"reference":"Practitioner/pract"}]"""),
                Observation("other", "q", Code("weight"), "2026-03-09"),
                """{"resourceType":"Encounter","id":"enc","status":"finished","class":{"code":"AMB"},"subject":{"reference":"Patient/p"}}""",
                """{"resourceType":"Group","id":"grp","type":"person","actual":true,"member":[{"entity":{"reference":"Patient/p"}},{"entity":{"reference":"Patient/q"}}]}""");
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();
    }
}
