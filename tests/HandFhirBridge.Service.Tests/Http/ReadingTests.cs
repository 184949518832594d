using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>What the HTTP API shows, as docs/http.md promises it.</summary>
public sealed class ReadingTests(RunningService service) : IClassFixture<RunningService>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string Example(string name) => File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", $"{name}.json"));

    [Fact]
    public async Task Bundle_OfASession_IsTheTransactionWithDigitsAsEntered()
    {
        var key = await Clinic.SubmitAsync(service.Api, Example("tarrowby-visit-1"), Cancellation);

        using var answer = await GetAsync($"sessions/{key}/bundle");

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/fhir+json");
        var text = await answer.Content.ReadAsStringAsync(Cancellation);
        var bundle = FhirAnswer.Parse<Bundle>(text);
        bundle.Type.ShouldBe(Bundle.BundleType.Transaction);
        bundle.Entry.ShouldAllBe(e => e.Request!.Method == Bundle.HTTPVerb.PUT && e.Request.Url == $"{e.Resource!.TypeName}/{e.Resource.Id}");
        foreach (var seconds in JsonNode.Parse(Example("tarrowby-visit-1"))!["trials"]!.AsArray().Select(t => t!["seconds"]).OfType<JsonNode>())
        {
            text.ShouldContain($"\"value\":{seconds.ToJsonString()},");
        }
    }

    [Fact]
    public async Task Report_OfASession_IsMadeOfWhatTheRecordHolds()
    {
        var key = await Clinic.SubmitAsync(service.Api, Example("brackwater-visit-2"), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);

        var report = await Clinic.GetAsync(service.Api, $"sessions/{key}/report", Cancellation);

        $"{report["site"]}/{report["sessionId"]}".ShouldBe(key);
        report["rows"]!.AsArray().Count.ShouldBe(14);
        ((bool)report["demonstration"]!).ShouldBeTrue();
        ((string?)report["caution"]).ShouldNotBeNullOrWhiteSpace();
        report["normSources"]!.AsArray().ShouldAllBe(s => (string?)s!["evidence"] == "recalled");
    }

    [Fact]
    public async Task Preview_Session_GivesTheReportAndStoresNothing()
    {
        var node = JsonNode.Parse(Example("ashdenne-visit-1"))!;
        node["sessionId"] = "preview-only";

        using var answer = await Clinic.PostAsync(service.Api, node.ToJsonString(), Cancellation, "sessions/preview");

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        var preview = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancellation))!;
        preview["report"]!["rows"]!.AsArray().Count.ShouldBe(14);
        using var stored = await GetAsync("sessions/harbour-hand-clinic/preview-only");
        stored.StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Preview_BadDocument_ListsItsProblemsWithoutAReport()
    {
        var document = await File.ReadAllTextAsync(Repository.Example("bad", "seconds-negative.json"), Cancellation);

        using var answer = await Clinic.PostAsync(service.Api, document, Cancellation, "sessions/preview");

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        var preview = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancellation))!;
        preview["report"].ShouldBeNull();
        var expected = await File.ReadAllLinesAsync(Repository.Example("bad", "seconds-negative.expected.txt"), Cancellation);
        ((string?)preview["problems"]!.AsArray().ShouldHaveSingleItem()!["code"]).ShouldBe(expected[0]);
    }

    // R4 search.html#escaping: characters that part a parameter's value are escaped, or the record is asked for something else.
    [Theory]
    [InlineData("a|b", "-1")]
    [InlineData("https://harbour-hand-clinic.example/id/patient", "HHC|003991")]
    [InlineData("https://harbour-hand-clinic.example/id/patient", "HHC-003991,HHC-004417")]
    [InlineData("a$b", "x")]
    public async Task Patients_IdentifierWithCharactersThatSearchesUse_FindsNobody(string system, string value)
    {
        var found = await Clinic.GetAsync(service.Api, $"patients?system={Uri.EscapeDataString(system)}&value={Uri.EscapeDataString(value)}", Cancellation);

        ((bool)found["found"]!).ShouldBeFalse();
    }

    [Fact]
    public async Task Patients_ByIdentifier_ConfirmsTheOneChart()
    {
        var system = Uri.EscapeDataString("https://harbour-hand-clinic.example/id/patient");

        var found = await Clinic.GetAsync(service.Api, $"patients?system={system}&value=HHC-003991", Cancellation);
        var none = await Clinic.GetAsync(service.Api, $"patients?system={system}&value=HHC-999999", Cancellation);

        ((bool)found["found"]!).ShouldBeTrue();
        ((string?)found["familyName"]).ShouldBe("Brackwater");
        ((string?)found["birthDate"]).ShouldBe("1951-06-03");
        ((bool)none["found"]!).ShouldBeFalse();
        none["familyName"].ShouldBeNull();
    }

    [Theory]
    [InlineData("health/live")]
    [InlineData("health/ready")]
    [InlineData("about")]
    [InlineData("sites")]
    [InlineData("instruments/seven-task")]
    public async Task Get_Reference_AnswersWithJson(string path)
    {
        using var answer = await GetAsync(path);

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/json");
        JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancellation)).ShouldNotBeNull();
    }

    [Fact]
    public async Task Schema_OfTheSession_IsThePublishedOne()
    {
        var text = await service.Api.GetStringAsync(new Uri("schemas/session-1.json", UriKind.Relative), Cancellation);

        using var published = new StreamReader(SessionSchema.Open());
        text.ShouldBe(await published.ReadToEndAsync(Cancellation));
        JsonDocument.Parse(text).RootElement.GetProperty("$schema").GetString().ShouldStartWith("https://json-schema.org/");
    }

    // OpenAPI Specification (https://spec.openapis.org/oas/), by the rules of its reference reader for .NET.
    [Fact]
    public async Task OpenApi_Document_IsValidAndDescribesEveryDoor()
    {
        var text = await service.Api.GetStringAsync(new Uri("openapi/v1.json", UriKind.Relative), Cancellation);

        var read = OpenApiDocument.Parse(text, OpenApiConstants.Json, new OpenApiReaderSettings());

        read.Diagnostic!.Errors.ShouldBeEmpty();
        var doors = read.Document!.Paths.SelectMany(p => p.Value.Operations!.Select(o => $"{o.Key} {p.Key}")).ToList();
        foreach (var door in new[]
        {
            "POST /sessions", "POST /sessions/preview", "GET /sessions/{site}/{id}", "GET /sessions/{site}/{id}/bundle",
            "GET /sessions/{site}/{id}/report", "GET /patients", "GET /instruments/{id}", "GET /health/ready",
            "GET /ledger/entries", "GET /ledger/entries/{site}/{id}", "POST /ledger/retry", "POST /ledger/entries/{site}/{id}/retry",
            "POST /ledger/entries/{site}/{id}/hold", "POST /ledger/entries/{site}/{id}/resolve",
        })
        {
            doors.ShouldContain(door);
        }

        var submit = read.Document.Paths["/sessions"].Operations![HttpMethod.Post];
        submit.Responses!.Keys.ShouldBe(["202", "400", "409", "413", "415", "422"], ignoreOrder: true);
    }

    [Fact]
    public async Task Get_UnknownPath_IsNotFound()
    {
        using var answer = await GetAsync("no/such/door");

        answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
    }

    private Task<HttpResponseMessage> GetAsync(string path) => service.Api.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
}
