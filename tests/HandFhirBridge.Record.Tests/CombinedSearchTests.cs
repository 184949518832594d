namespace HandFhirBridge.Record.Tests;

// R4 search.html#has, #composite
public sealed class CombinedSearchTests(SearchTests.Filled server) : IClassFixture<SearchTests.Filled>
{
    [Theory]
    [InlineData("Patient?_has:Observation:patient:code=urn:c|a", "p1 p2")] // #has
    [InlineData("Patient?_has:Observation:patient:value-quantity=lt10", "p1")]
    [InlineData("Patient?_has:Observation:subject:date=2013-01-15", "p2")]
    [InlineData("Patient?_has:Observation:patient:code=urn:c|b", "")]
    [InlineData("Patient?_has:Observation:patient:code=a&family=kenton", "p2")]
    [InlineData("Patient?_has:Observation:patient:_id=o2,o3", "p1 p2")]
    [InlineData("QuestionnaireResponse?_has:Observation:derived-from:patient.identifier=urn:m|1", "q1")]
    [InlineData("Observation?patient._has:RiskAssessment:patient:probability=gt0.8", "o1 o3")]
    [InlineData("Observation?code-value-quantity=urn:c|a$lt10", "o3")] // #composite
    [InlineData("Observation?code-value-quantity=urn:c|a$12.40|http://unitsofmeasure.org|s", "o1")]
    [InlineData("Observation?code-value-quantity=b$lt10", "")]
    [InlineData("Observation?code-value-quantity=a$gt12.4,a$lt10", "o2 o3")]
    [InlineData("Observation?code-value-quantity=a$le12.4&patient=p1&date=2013-01-14", "o1")]
    [InlineData("Patient?_has:Observation:patient:code-value-quantity=a$gt12.4", "p2")]
    public async Task Search_ReversedOrComposite_FindsExactly(string query, string ids) => await server.Inner.ExpectAsync(query, ids);

    [Theory]
    [InlineData("Patient?_has:Observation:code=a", "_has:Type:reference:parameter")]
    [InlineData("Patient?_has:Cat:patient:code=a", "_has:Cat")]
    [InlineData("Patient?_has:Observation:encounter:code=a", "points at Patient")]
    [InlineData("Patient?_has:Observation:patient:shoe=a", "shoe")]
    [InlineData("Observation?code-value-quantity=a", "joined by $")]
    [InlineData("Observation?code-value-quantity=a$1$2", "joined by $")]
    [InlineData("Observation?code-value-quantity:missing=true", "takes none")]
    [InlineData("Observation?_sort=code-value-quantity", "_sort")]
    public async Task Search_CombinedWrongly_IsRefusedByName(string query, string named)
    {
        var answer = await server.GetAsync(query);

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain(named);
    }

    // A deleted resource points at nothing.
    [Fact]
    public async Task Search_HasOfADeletedResource_FindsNothing()
    {
        await server.Inner.PutAsync("""{"resourceType":"Observation","id":"gone","status":"final","code":{"coding":[{"code":"gone"}]},"subject":{"reference":"Patient/p2"}}""");
        await server.Inner.ExpectAsync("Patient?_has:Observation:patient:code=gone", "p2");

        await server.SendAsync(HttpMethod.Delete, "Observation/gone", null);

        await server.Inner.ExpectAsync("Patient?_has:Observation:patient:code=gone", "");
    }
}
