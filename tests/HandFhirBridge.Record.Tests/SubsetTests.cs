using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// R4 search.html#summary, #elements; its words are given here from memory
public sealed class SubsetTests(SubsetTests.Filled server) : IClassFixture<SubsetTests.Filled>
{
    // What is marked as summary, mandatory or text is the specification's own (patient.html: communication and contact carry no sigma).
    [Theory]
    [InlineData("_summary=true", "birthDate gender id meta name resourceType")]
    [InlineData("_summary=text", "id meta resourceType text")]
    [InlineData("_summary=data", "birthDate contact gender id meta name resourceType")]
    [InlineData("_summary=false", "birthDate contact gender id meta name resourceType text")]
    [InlineData("_elements=birthDate", "birthDate id meta resourceType")]
    [InlineData("_elements=name,contact", "contact id meta name resourceType")]
    public async Task Subset_OfSearchAndRead_HasTheElementsAskedFor(string asked, string elements)
    {
        var found = (await server.Inner.GetAsync("Patient?_id=s1&" + asked)).Json["entry"]![0]!["resource"]!;
        var read = (await server.Inner.GetAsync("Patient/s1?" + asked)).Json;

        Names(found).ShouldBe(elements);
        Names(read).ShouldBe(elements);
        // "Servers SHOULD mark the resources with the tag SUBSETTED to ensure that the incomplete resource is not accidentally used to
        // overwrite a complete resource" (#summary).
        read.ToJsonString().Contains("SUBSETTED", StringComparison.Ordinal).ShouldBe(asked != "_summary=false");
    }

    // "text: Return only the text, id, meta, and top-level mandatory elements"; "data: Remove the text element" (#summary).
    [Fact]
    public async Task Subset_OfText_KeepsMandatoryElements() =>
        Names((await server.Inner.GetAsync("Observation/so?_summary=text")).Json).ShouldBe("code id meta resourceType status");

    [Fact]
    public async Task Subset_OfElements_KeepsMandatoryElementsAndDigits()
    {
        var answer = await server.Inner.GetAsync("Observation/so?_elements=value");

        Names(answer.Json).ShouldBe("code id meta resourceType status valueQuantity");
        answer.Text.ShouldContain("12.40");
    }

    [Fact]
    public async Task Subset_OfIncluded_SummaryAppliesAndElementsDoNot()
    {
        var byElements = await server.Inner.GetAsync("Observation?_id=so&_include=Observation:subject&_elements=code,status");
        var bySummary = await server.Inner.GetAsync("Observation?_id=so&_include=Observation:subject&_summary=true");

        Names(byElements.Json["entry"]![1]!["resource"]!).ShouldContain("contact");
        Names(bySummary.Json["entry"]![1]!["resource"]!).ShouldNotContain("contact");
    }

    [Fact]
    public async Task Subset_OfCount_GivesTheTotalAlone()
    {
        var counted = (await server.Inner.GetAsync("Patient?gender=female&_summary=count&_total=none")).Json;

        (counted["total"]!.GetValue<int>(), counted["entry"]).ShouldBe((1, null));
    }

    [Theory]
    [InlineData("Patient?_summary=short", "_summary")]
    [InlineData("Patient?_elements=shoe", "shoe")]
    [InlineData("Patient/s1?_summary=count", "_summary=count")]
    [InlineData("Observation?_summary=text&_include=Observation:subject", "_summary=text")]
    public async Task Subset_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.Inner.GetAsync(query);

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain(named);
    }

    private static string Names(JsonNode resource) => string.Join(' ', resource.AsObject().Select(p => p.Key).Order(StringComparer.Ordinal));

    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                """{"resourceType":"Patient","id":"s1","text":{"status":"generated","div":"<div xmlns=\"http://www.w3.org/1999/xhtml\">E</div>"},"name":[{"family":"Example"}],"gender":"female","birthDate":"1960-05-01","contact":[{"name":{"family":"Kin"}}]}""",
                """{"resourceType":"Observation","id":"so","status":"final","code":{"text":"x"},"subject":{"reference":"Patient/s1"},"valueQuantity":{"value":12.40,"unit":"s"}}""");
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();
    }
}
