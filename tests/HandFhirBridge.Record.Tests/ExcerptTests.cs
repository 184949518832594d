using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// R4 search.html#summary and #elements, on the published example of an Observation.
public sealed class ExcerptTests(RecordServer server) : IClassFixture<RecordServer>
{
    // Summary elements of Observation are those marked Σ at R4 observation.html; category and interpretation are not.
    [Theory]
    [InlineData("_summary=true", "code effectiveDateTime encounter id meta resourceType status subject valueQuantity")]
    [InlineData("_summary=text", "code id meta resourceType status text")] // text, id, meta "and only top-level mandatory elements"
    [InlineData("_summary=data", "category code effectiveDateTime encounter id meta resourceType status subject valueQuantity")] // "Remove the text element"
    [InlineData("_summary=false", "category code effectiveDateTime encounter id meta resourceType status subject text valueQuantity")]
    [InlineData("_elements=subject,value", "code id meta resourceType status subject valueQuantity")] // mandatory ones come along
    [InlineData("_elements=subject", "code id meta resourceType status subject")]
    public async Task Search_InPart_ReturnsTheseElements(string part, string elements)
    {
        var found = await FindAsync($"_id=example&{part}");

        string.Join(' ', found.Select(p => p.Key).Order(StringComparer.Ordinal)).ShouldBe(elements);
        // "Servers SHOULD mark the resources with the tag SUBSETTED": what is not whole must not be written back.
        found["meta"]!.ToJsonString().Contains("\"SUBSETTED\"", StringComparison.Ordinal).ShouldBe(part != "_summary=false");
    }

    // R4 search.html#summary: "count: Search only: just return a count of the matching resources, without returning the actual matches".
    [Theory]
    [InlineData("_summary=count")]
    [InlineData("_summary=count&_total=none&_count=10")]
    public async Task Search_ForTheCount_GivesTheTotalAlone(string query)
    {
        await FillAsync();
        var answer = (await server.GetAsync($"Observation?_id=example&{query}")).Json;

        (answer["total"]!.GetValue<int>(), answer["entry"]).ShouldBe((1, null));
    }

    // R4 datatypes.html#decimal: the digits have meaning, in a part as in the whole.
    [Fact]
    public async Task Search_InPart_KeepsEveryDigit()
    {
        await FillAsync();
        var digits = (await FindAsync("_id=decimal&_summary=true"))["component"]!.AsArray().Select(c => c!["valueQuantity"]!["value"]!.ToJsonString());

        digits.ShouldBe(JsonNode.Parse(RecordServer.Example("observation-decimal.json"))!["component"]!.AsArray().Select(c => c!["valueQuantity"]!["value"]!.ToJsonString()));
    }

    [Fact]
    public async Task Search_ForElements_LeavesWhatIsIncludedWhole()
    {
        await FillAsync();
        var answer = await server.GetAsync("Observation?_id=example&_elements=status&_include=Observation:subject");

        answer.Json["entry"]![1]!["resource"]!["birthDate"].ShouldNotBeNull();
        answer.Link("self")!.ShouldContain("_elements=status");
    }

    [Theory]
    [InlineData("_summary=short", "short")]
    [InlineData("_elements=shoe", "shoe")]
    [InlineData("_elements=valueQuantity", "valueQuantity")]
    public async Task Search_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.GetAsync($"Observation?{query}");

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain(named);
    }

    private async Task<JsonObject> FindAsync(string query)
    {
        await FillAsync();
        var answer = await server.GetAsync($"Observation?{query}");
        answer.Status.ShouldBe(200, answer.Text);
        return answer.Json["entry"]![0]!["resource"]!.AsObject();
    }

    private async Task FillAsync()
    {
        await server.SendAsync(HttpMethod.Put, "Patient/example", RecordServer.Example("patient-example.json"));
        await server.SendAsync(HttpMethod.Put, "Observation/example", RecordServer.Example("observation-example.json"));
        await server.SendAsync(HttpMethod.Put, "Observation/decimal", RecordServer.Example("observation-decimal.json"));
    }
}
