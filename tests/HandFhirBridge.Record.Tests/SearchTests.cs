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
    [InlineData("Observation?subject=http://localhost/clinic/fhir/Patient/p2", "o2")] // #reference: absolute, under this base
    [InlineData("Observation?subject=Patient/p2,Patient/p1", "o1 o2 o3")] // #combining: a comma is or
    [InlineData("Observation?subject=Patient/p1&value-quantity=lt10", "o3")] // a repetition is and
    [InlineData("Observation?subject.identifier=urn:m|2", "o2")] // #chaining: any type the reference may point at
    [InlineData("Observation?subject:Patient.family=KENTON", "o2")]
    [InlineData("Observation?subject:Device.identifier=urn:m|2", "")]
    [InlineData("Observation?subject:identifier=9", "o4")]
    [InlineData("Observation?subject:missing=true", "")]
    [InlineData("Observation?value-quantity:missing=true", "o4")]
    [InlineData("Observation?code:not=urn:c|a", "o4")]
    [InlineData("Observation?value-quantity=ne12.4", "o2 o3")]
    [InlineData("Observation?value-quantity=ge12.5", "o2")]
    [InlineData("Observation?value-quantity=eb12.4", "o3")]
    [InlineData("Observation?value-quantity=sa12.4", "o2")]
    [InlineData("QuestionnaireResponse?questionnaire=urn:q", "q1")] // #versions: a canonical with and without its version
    [InlineData("QuestionnaireResponse?questionnaire=urn:q|1.0.0", "q1")]
    [InlineData("QuestionnaireResponse?questionnaire=urn:q|2.0.0", "")]
    [InlineData("Patient?_profile=urn:profile", "p2")]
    [InlineData("Patient?_lastUpdated=gt2020-01-01", "p1 p2")]
    [InlineData("Patient?_lastUpdated=lt2020-01-01", "")]
    [InlineData("Patient?given=anna", "p1")]
    [InlineData("Patient?name=anna", "p1")]
    [InlineData("Patient?name:exact=Anna Lena", "p1")]
    [InlineData("Patient?address-city=bern", "p1")]
    [InlineData("Patient?telecom=555-0100", "p1")]
    [InlineData("Patient?active=true", "p1")]
    [InlineData("RiskAssessment?probability=gt0.8", "ra1")] // #number
    [InlineData("RiskAssessment?probability=0.9", "ra1")]
    [InlineData("ValueSet?url=urn:v|1", "")] // #uri
    [InlineData("ValueSet?url=urn:v", "v1")]
    [InlineData("ValueSet?url:below=urn:", "v1")]
    public async Task Search_ByParameter_FindsExactly(string query, string ids) => await Expect(query, ids);

    [Theory]
    [InlineData("Patient?shoe-size=9", "shoe-size")]
    [InlineData("Patient?family:sounds=x", "modifier")]
    [InlineData("Observation?date=yesterday", "date")]
    [InlineData("Patient?_sort=shoe-size", "shoe-size")]
    [InlineData("Observation?_include=Observation:code", "_include")]
    [InlineData("Patient?_count=many", "_count")]
    [InlineData("Patient?identifier=", "identifier")]
    [InlineData("Patient?identifier=a|b|c", "a|b|c")]
    [InlineData("Observation?value-quantity=fast", "value-quantity")]
    [InlineData("Observation?date=ap2013", "ap")]
    [InlineData("Observation?date=2013-02-30", "date")]
    [InlineData("Observation?subject.shoe=1", "subject.shoe")]
    [InlineData("Patient?_revinclude=Cat:subject", "_revinclude")]
    [InlineData("Patient?_after=zzz", "_after")]
    [InlineData("Patient?birthdate:missing=maybe", "missing")]
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
    [InlineData("Observation?_id=o3&_include=Observation:*", "o3 p1 q1")]
    [InlineData("Observation?_id=o2&_include=Observation:subject:Group", "o2")]
    [InlineData("QuestionnaireResponse?_id=q1&_revinclude=Observation:derived-from&_include:iterate=Observation:subject", "o3 p1 q1")]
    public async Task Search_WithIncludes_AddsThemOnceAsIncludes(string query, string ids)
    {
        await Expect(query, ids);
        (await server.GetAsync(query)).Json["total"]!.GetValue<int>().ShouldBe(1);
    }

    [Fact]
    public async Task Search_ByPost_IsTheSame()
    {
        using var form = new FormUrlEncodedContent([new("identifier", "urn:m|1")]);
        using var answer = await server.Inner.Client.PostAsync(new Uri("Patient/_search", UriKind.Relative), form, TestContext.Current.CancellationToken);

        (await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldContain("\"p1\"");
    }

    // R4 search.html#summary: _count=0 asks for the number alone; #total: none leaves it out.
    [Fact]
    public async Task Search_CountOfZero_GivesTheTotalAlone()
    {
        var counted = (await server.GetAsync("Observation?code=a&_count=0")).Json;
        (counted["total"]!.GetValue<int>(), counted["entry"]).ShouldBe((3, null));
        (await server.GetAsync("Observation?code=a&_total=none")).Json["total"].ShouldBeNull();
    }

    [Fact]
    public async Task Metadata_ListsWhatIsSearched()
    {
        var statement = (await server.GetAsync("metadata")).Json;

        ((string)statement["fhirVersion"]!).ShouldBe("4.0.1");
        var observation = statement["rest"]![0]!["resource"]!.AsArray().Single(r => (string)r!["type"]! == "Observation")!;
        observation["searchParam"]!.AsArray().Select(p => (string)p!["name"]!).ShouldContain("derived-from");
    }

    private Task Expect(string query, string ids) => server.Inner.ExpectAsync(query, ids);

    /// <summary>A record that holds what the searches look for.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        private static readonly string[] Resources =
        [
            """{"resourceType":"Patient","id":"p1","identifier":[{"system":"urn:m","value":"1"}],"active":true,"name":[{"family":"Evéret","given":["Anna Lena"]}],"telecom":[{"system":"phone","value":"555-0100"}],"address":[{"city":"Bern"}],"gender":"female","birthDate":"1960-05-01"}""",
            """{"resourceType":"Patient","id":"p2","meta":{"profile":["urn:profile"],"tag":[{"system":"urn:tag","code":"a,b"}]},"identifier":[{"system":"urn:m","value":"2"}],"name":[{"family":"Kenton"}]}""",
            Observation("o1", "2013-01-14T10:00:00Z", "\"reference\":\"Patient/p1\"", "12.40"),
            Observation("o2", "2013-01-15T10:00:00Z", "\"reference\":\"Patient/p2\"", "12.50"),
            Observation("o3", "2013-01-16T10:00:00Z", "\"reference\":\"Patient/p1\"", "7", """, "derivedFrom":[{"reference":"QuestionnaireResponse/q1"}]"""),
            """{"resourceType":"Observation","id":"o4","status":"final","code":{"text":"x"},"subject":{"type":"Patient","identifier":{"system":"urn:l","value":"9"}}}""",
            """{"resourceType":"QuestionnaireResponse","id":"q1","questionnaire":"urn:q|1.0.0","status":"completed"}""",
            """{"resourceType":"RiskAssessment","id":"ra1","status":"final","subject":{"reference":"Patient/p1"},"prediction":[{"probabilityDecimal":0.9}]}""",
            """{"resourceType":"ValueSet","id":"v1","url":"urn:v","status":"active"}""",
        ];

        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(Resources);
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
