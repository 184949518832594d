namespace HandFhirBridge.Record.Tests;

// http://hl7.org/fhir/OperationDefinition/Observation-lastn, as of R4
public sealed class LastObservationsTests(RecordServer server) : IClassFixture<RecordServer>
{
    // The definition's own table: "Observation.code for observation a | b | c | number of groups".
    [Theory]
    [InlineData("a", "b", "c", 3)]
    [InlineData("a", "b", "a,c", 2)]
    [InlineData("a", "b", "a,b", 1)]
    [InlineData("'textM'", "'Text'", "'t e x t'", 3)]
    public async Task Lastn_OfTheDefinitionsTable_HasItsNumberOfGroups(string first, string second, string third, int groups)
    {
        var patient = $"t{groups}{first.Length}{third.Length}";
        await server.PutAsync(Observation(patient + "1", patient, first, "2026-01-01"), Observation(patient + "2", patient, second, "2026-01-02"), Observation(patient + "3", patient, third, "2026-01-03"));

        var answer = await server.GetAsync($"Observation/$lastn?patient={patient}&category=exam");

        answer.Ids.Count().ShouldBe(groups, answer.Text);
        answer.Json["total"]!.GetValue<int>().ShouldBe(groups);
    }

    // "max [...] is used to specify the maximum number of Observations to return from each group"; "limited to the number of requested
    // responses per group specified by the optional max query parameter". Dates are given in another order than they are stored.
    [Theory]
    [InlineData("", "m5 m2")]
    [InlineData("&max=2", "m5 m4 m2 m1")]
    [InlineData("&max=9", "m5 m4 m3 m2 m1")]
    [InlineData("&max=2&date=lt2026-03-01", "m4 m3 m2 m1")] // "Other Observation search parameters and modifiers"
    public async Task Lastn_WithMax_GivesTheLatestOfEachCode(string more, string ids)
    {
        await server.SendAsync(HttpMethod.Put, "Observation/m4", Observation("m4", "m", "a", "2026-02-04"));
        await server.SendAsync(HttpMethod.Put, "Observation/m2", Observation("m2", "m", "b", "2026-01-09"));
        await server.SendAsync(HttpMethod.Put, "Observation/m5", Observation("m5", "m", "a", "2026-03-05"));
        await server.SendAsync(HttpMethod.Put, "Observation/m1", Observation("m1", "m", "b", "2026-01-01"));
        await server.SendAsync(HttpMethod.Put, "Observation/m3", Observation("m3", "m", "a", "2026-02-03"));

        var answer = await server.GetAsync("Observation/$lastn?subject=Patient/m&code=a,b" + more);

        string.Join(' ', answer.Ids).ShouldBe(ids);
    }

    // "If there are no matches, the lastn query SHALL return an empty search set with no error".
    [Fact]
    public async Task Lastn_WithoutMatches_IsAnEmptySearchSet()
    {
        var answer = await server.GetAsync("Observation/$lastn?patient=nobody&code=a");

        (answer.Status, (string)answer.Json["type"]!, answer.Json["entry"]).ShouldBe((200, "searchset", null));
        answer.Link("self").ShouldBe("http://localhost/clinic/fhir/Observation/$lastn?patient=nobody&code=a");
    }

    [Theory]
    [InlineData("code=a", "patient or subject")]
    [InlineData("patient=m", "category")]
    [InlineData("patient=m&code=a&max=0", "max")]
    [InlineData("patient=m&code=a&max=few", "max")]
    [InlineData("patient=m&code=a&_sort=date", "_sort")]
    [InlineData("patient=m&code=a&shoe=1", "shoe")]
    public async Task Lastn_WithoutWhatItNeeds_IsRefusedByName(string query, string named)
    {
        var answer = await server.GetAsync("Observation/$lastn?" + query);

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain(named);
    }

    private static string Observation(string id, string patient, string codes, string date)
    {
        var code = codes.StartsWith('\'')
            ? $"\"text\":\"{codes.Trim('\'')}\""
            : $"\"coding\":[{string.Join(',', codes.Split(',').Select(c => $$"""{"system":"urn:c","code":"{{c}}"}"""))}]";
        return $$"""{"resourceType":"Observation","id":"{{id}}","status":"final","category":[{"coding":[{"code":"exam"}]}],"code":{ {{code}} },"subject":{"reference":"Patient/{{patient}}"},"effectiveDateTime":"{{date}}"}""";
    }
}
