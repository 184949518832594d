using System.Globalization;

namespace HandFhirBridge.Record.Tests;

// R4 search.html
public sealed class SearchTests(SearchTests.Filled server) : IClassFixture<SearchTests.Filled>
{
    [Theory]
    [InlineData("Patient?identifier=urn:m|1", "p1")] // #token
    [InlineData("Patient?identifier=1", "p1")]
    [InlineData("Patient?identifier=urn:m|", "p1 p2")]
    [InlineData("Patient?identifier=|1", "")]
    [InlineData("Patient?identifier=urn:m|1,urn:m|2", "p1 p2")]
    [InlineData("Patient?identifier=urn:x|1", "")]
    [InlineData("Patient?gender:not=female&identifier=urn:m|", "p2")] // #token :not also finds what is absent
    [InlineData("Patient?family=eve", "p1")] // #string: starts with, any case and accent
    [InlineData("Patient?family=Éve", "p1")]
    [InlineData("Patient?family:exact=eve", "")]
    [InlineData("Patient?family:contains=ENT", "p2")]
    [InlineData("Patient?family=eve&birthdate=1960-05-01", "p1")]
    [InlineData("Patient?birthdate:missing=true&identifier=urn:m|", "p2")]
    [InlineData("Patient?_id=p1,p2", "p1 p2")]
    [InlineData("Patient?_tag=urn:tag|a\\,b", "p2")] // #escaping
    [InlineData("Observation?code=urn:c|a", "o1 o2 o3")]
    [InlineData("Observation?code=urn:c|a&subject=Patient/p1", "o1 o3")] // #reference
    [InlineData("Observation?subject=p2", "o2")]
    [InlineData("Observation?subject:Patient=p2", "o2")]
    [InlineData("Observation?patient=p1&code=urn:c|a", "o1 o3")]
    [InlineData("Observation?subject:Patient.identifier=urn:m|2", "o2")] // #chaining
    [InlineData("Observation?patient.identifier=urn:m|1&code=urn:c|a", "o1 o3")]
    [InlineData("Observation?subject:identifier=urn:l|9", "o4")]
    [InlineData("Observation?value-quantity=12.4", "o1")] // #quantity: 12.35 up to 12.45
    [InlineData("Observation?value-quantity=12.40|http://unitsofmeasure.org|s", "o1")]
    [InlineData("Observation?value-quantity=gt12.4||s", "o2")]
    [InlineData("Observation?value-quantity=le12.4|http://unitsofmeasure.org|s", "o1 o3")]
    [InlineData("Observation?value-quantity=12.4|http://unitsofmeasure.org|min", "")]
    [InlineData("Observation?derived-from=QuestionnaireResponse/q1", "o3")]
    [InlineData("RiskAssessment?probability=gt0.8", "ra1")] // #number
    [InlineData("RiskAssessment?probability=0.9", "ra1")]
    [InlineData("ValueSet?url=urn:v|1", "")] // #uri
    [InlineData("ValueSet?url=urn:v", "v1")]
    public async Task Search_ByParameter_FindsExactly(string query, string ids) => await Expect(query, ids);

    // R4 search.html#prefix, the table of the specification: the Observation o1 is at 2013-01-14T10:00 (UTC).
    [Theory]
    [InlineData("eq2013-01-14", true)]
    [InlineData("2013-01-14", true)]
    [InlineData("ne2013-01-14", false)]
    [InlineData("lt2013-01-14T10:00", false)]
    [InlineData("lt2013-01-14T10:01", true)]
    [InlineData("gt2013-01-14T10:00", false)]
    [InlineData("gt2013-01-13", true)]
    [InlineData("ge2013-01-14", true)]
    [InlineData("le2013-01-14", true)]
    [InlineData("sa2013-01-14", false)]
    [InlineData("sa2013-01-13", true)]
    [InlineData("eb2013-01-14", false)]
    [InlineData("eb2013-01-15", true)]
    [InlineData("2013", true)]
    [InlineData("2013-01", true)]
    [InlineData("2013-02", false)]
    [InlineData("2013-01-14T12:00:00%2B02:00", true)]
    public async Task Search_ByDate_FollowsThePrefixTable(string date, bool found) =>
        await Expect($"Observation?_id=o1&date={date}", found ? "o1" : "");

    [Theory]
    [InlineData("Patient?shoe-size=9", "shoe-size")]
    [InlineData("Patient?family:sounds=x", "modifier")]
    [InlineData("Observation?date=yesterday", "date")]
    [InlineData("Patient?_sort=shoe-size", "shoe-size")]
    [InlineData("Observation?_include=Observation:code", "_include")]
    [InlineData("Patient?_count=many", "_count")]
    public async Task Search_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.GetAsync(query);

        answer.Status.ShouldBe(400);
        answer.Text.ShouldContain(named);
    }

    // R4 search.html#errors: Prefer: handling=lenient ignores, and the self link shows what was used.
    [Fact]
    public async Task Search_UnknownParameterLeniently_IsIgnoredAndNotInTheSelfLink()
    {
        var answer = await server.SendAsync(HttpMethod.Get, "Patient?shoe-size=9&identifier=urn:m|1", null, ("Prefer", "handling=lenient"));

        answer.Ids.ShouldBe(["p1"]);
        ((string)answer.Json["link"]![0]!["url"]!).ShouldNotContain("shoe-size");
    }

    // R4 search.html#revinclude
    [Theory]
    [InlineData("Observation?_id=o2&_include=Observation:subject", "o2 p2")]
    [InlineData("Patient?_id=p1&_revinclude=Observation:subject", "o1 o3 p1")]
    public async Task Search_WithIncludes_AddsThemOnceAsIncludes(string query, string ids)
    {
        await Expect(query, ids);
        (await server.GetAsync(query)).Json["total"]!.GetValue<int>().ShouldBe(1);
    }

    // R4 http.html#paging
    [Fact]
    public async Task Search_InPages_GivesEveryMatchOnceInOrder()
    {
        var (found, next) = (new List<string>(), (string?)"Observation?code=urn:c|a&_sort=-date&_count=1");
        while (next is not null)
        {
            var page = await server.GetAsync(next);
            found.AddRange(page.Ids);
            next = page.Json["link"]!.AsArray().Where(l => (string)l!["relation"]! == "next").Select(l => (string)l!["url"]!).SingleOrDefault();
        }

        found.ShouldBe(["o3", "o2", "o1"]);
    }

    [Fact]
    public async Task Search_ByPost_IsTheSame()
    {
        using var form = new FormUrlEncodedContent([new("identifier", "urn:m|1")]);
        using var answer = await server.Inner.Client.PostAsync(new Uri("Patient/_search", UriKind.Relative), form, TestContext.Current.CancellationToken);

        (await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("\"p1\"");
    }

    [Fact]
    public async Task Metadata_ListsWhatIsSearched()
    {
        var statement = (await server.GetAsync("metadata")).Json;

        ((string)statement["fhirVersion"]!).ShouldBe("4.0.1");
        var observation = statement["rest"]![0]!["resource"]!.AsArray().Single(r => (string)r!["type"]! == "Observation")!;
        observation["searchParam"]!.AsArray().Select(p => (string)p!["name"]!).ShouldContain("derived-from");
    }

    private async Task Expect(string query, string ids)
    {
        var answer = await server.GetAsync(query);
        answer.Status.ShouldBe(200, answer.Text);
        answer.Ids.Order(StringComparer.Ordinal).ShouldBe(ids.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>A record that holds what the searches look for.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        private static readonly string[] Resources =
        [
            """{"resourceType":"Patient","id":"p1","identifier":[{"system":"urn:m","value":"1"}],"name":[{"family":"Evéret"}],"gender":"female","birthDate":"1960-05-01"}""",
            """{"resourceType":"Patient","id":"p2","meta":{"tag":[{"system":"urn:tag","code":"a,b"}]},"identifier":[{"system":"urn:m","value":"2"}],"name":[{"family":"Kenton"}]}""",
            Observation("o1", "2013-01-14T10:00:00Z", "\"reference\":\"Patient/p1\"", "12.40"),
            Observation("o2", "2013-01-15T10:00:00Z", "\"reference\":\"Patient/p2\"", "12.50"),
            Observation("o3", "2013-01-16T10:00:00Z", "\"reference\":\"Patient/p1\"", "7", """, "derivedFrom":[{"reference":"QuestionnaireResponse/q1"}]"""),
            """{"resourceType":"Observation","id":"o4","status":"final","code":{"text":"x"},"subject":{"type":"Patient","identifier":{"system":"urn:l","value":"9"}}}""",
            """{"resourceType":"QuestionnaireResponse","id":"q1","status":"completed"}""",
            """{"resourceType":"RiskAssessment","id":"ra1","status":"final","subject":{"reference":"Patient/p1"},"prediction":[{"probabilityDecimal":0.9}]}""",
            """{"resourceType":"ValueSet","id":"v1","url":"urn:v","status":"active"}""",
        ];

        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            foreach (var resource in Resources)
            {
                var node = System.Text.Json.Nodes.JsonNode.Parse(resource)!;
                var answer = await Inner.SendAsync(HttpMethod.Put, $"{node["resourceType"]}/{node["id"]}", resource);
                answer.Status.ShouldBe(201, answer.Text);
            }
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();

        public Task<RecordServer.Answer> GetAsync(string url) => Inner.GetAsync(url);

        public Task<RecordServer.Answer> SendAsync(HttpMethod method, string url, string? body, params (string Name, string Value)[] headers) =>
            Inner.SendAsync(method, url, body, headers);

        private static string Observation(string id, string at, string subject, string value, string more = "") => string.Create(
            CultureInfo.InvariantCulture,
            $$"""{"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"urn:c","code":"a"}]},"subject":{ {{subject}} },"effectiveDateTime":"{{at}}","valueQuantity":{"value":{{value}},"unit":"s","system":"http://unitsofmeasure.org","code":"s"}{{more}}}""");
    }
}
