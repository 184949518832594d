using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>Handing sessions in over HTTP, as docs/http.md promises it.</summary>
public sealed class SubmittingTests(RunningService service) : IClassFixture<RunningService>
{
    private const string Unknown = "harbour-hand-clinic/never-handed-in";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string Example(string name) => File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", $"{name}.json"));

    [Fact]
    public async Task Post_Session_IsAcceptedWithItsLocationAndDelivered()
    {
        using var answer = await Clinic.PostAsync(service.Api, Example("tarrowby-visit-1"), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync(Cancellation));
        answer.Headers.Location!.OriginalString.ShouldBe("/sessions/harbour-hand-clinic/HHC-004417-20260210");
        var state = await Clinic.DeliveredAsync(service.Api, "harbour-hand-clinic/HHC-004417-20260210", Cancellation);
        ((int)state["revision"]!).ShouldBe(1);
        state["attempts"]!.AsArray().Count.ShouldBe(1, state.ToJsonString());
        state["deliveredAt"].ShouldNotBeNull();
    }

    [Fact]
    public async Task Post_SameSessionAgain_IsAcceptedAndStillOneReport()
    {
        const string key = "harbour-hand-clinic/HHC-003991-20260122";
        await Clinic.SubmitAsync(service.Api, Example("brackwater-visit-1"), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);

        // Other white space and order of properties, the same content.
        var other = JsonNode.Parse(Example("brackwater-visit-1"))!.AsObject();
        var comment = other["comment"]!.DeepClone();
        other.Remove("comment");
        other.Insert(0, "comment", comment);
        await Clinic.SubmitAsync(service.Api, other.ToJsonString(), Cancellation);

        var state = await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        state["attempts"]!.AsArray().Count.ShouldBe(1);
        var found = await Clinic.SearchAsync(
            service.Process.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{key}", Cancellation);
        found.ShouldHaveSingleItem();
    }

    [Fact]
    public async Task Post_OtherContentUnderTheSameId_IsAConflictAndChangesNothing()
    {
        const string key = "harbour-hand-clinic/HHC-004502-20260303";
        await Clinic.SubmitAsync(service.Api, Example("quillfeather-visit-1"), Cancellation);
        var before = await BundleAsync(key);

        using var answer = await Clinic.PostAsync(
            service.Api, Example("quillfeather-visit-1").Replace("37.11", "37.12", StringComparison.Ordinal), Cancellation);

        await answer.ShouldBeRefusedAsync(HttpStatusCode.Conflict, "HFB5001");
        (await BundleAsync(key)).ShouldBe(before);
    }

    public static TheoryData<string, HttpStatusCode> Bad => new()
    {
        { "not-json", HttpStatusCode.BadRequest },
        { "empty", HttpStatusCode.BadRequest },
        { "not-utf8", HttpStatusCode.BadRequest },
        { "seconds-negative", HttpStatusCode.UnprocessableEntity },
        { "patient-identifier-missing", HttpStatusCode.UnprocessableEntity },
        { "session-in-the-future", HttpStatusCode.UnprocessableEntity },
        { "instrument-unknown", HttpStatusCode.UnprocessableEntity },
    };

    [Theory, MemberData(nameof(Bad))]
    public async Task Post_BadDocument_IsRefusedWithCodeAndPlaceAndNotStored(string name, HttpStatusCode status)
    {
        var expected = await File.ReadAllLinesAsync(Repository.Example("bad", $"{name}.expected.txt"), Cancellation);
        var before = await CountAsync();
        using var body = new ByteArrayContent(await File.ReadAllBytesAsync(Repository.Example("bad", $"{name}.json"), Cancellation));
        body.Headers.ContentType = new MediaTypeHeaderValue("application/json");

        using var answer = await service.Api.PostAsync(new Uri("sessions", UriKind.Relative), body, Cancellation);

        var issue = await answer.ShouldBeRefusedAsync(status, expected[0]);
        issue.Expression.ShouldBe(expected[1].StartsWith('$') ? [expected[1]] : []);
        (await CountAsync()).ShouldBe(before);
    }

    [Fact]
    public async Task Post_DocumentAboveOneMebibyte_IsTooLarge()
    {
        var node = JsonNode.Parse(Example("tarrowby-visit-2"))!;
        node["comment"] = new string('x', 1024 * 1024);

        using var answer = await Clinic.PostAsync(service.Api, node.ToJsonString(), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.RequestEntityTooLarge);
        var issue = FhirAnswer.Parse<OperationOutcome>(await answer.Content.ReadAsStringAsync(Cancellation)).Issue.ShouldHaveSingleItem();
        issue.Code.ShouldBe(OperationOutcome.IssueType.TooLong);
        issue.Details!.Coding.Single().Code.ShouldBeOneOf("HFB1001", "HFB6005");
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/xml")]
    public async Task Post_NotDeclaredAsJson_IsUnsupported(string type)
    {
        using var body = new StringContent(Example("tarrowby-visit-2"), Encoding.UTF8, type);

        using var answer = await service.Api.PostAsync(new Uri("sessions", UriKind.Relative), body, Cancellation);

        await answer.ShouldBeRefusedAsync(HttpStatusCode.UnsupportedMediaType, "HFB6006");
    }

    [Fact]
    public async Task Post_PatientWithoutAChart_IsHeldWithTheReasonAndNothingIsWritten()
    {
        var node = JsonNode.Parse(Example("lindqvale-visit-1"))!;
        node["sessionId"] = "no-such-chart";
        node["patient"]!["identifier"]!["value"] = "HHC-999999";
        var key = await Clinic.SubmitAsync(service.Api, node.ToJsonString(), Cancellation);

        var state = await RestingAsync(key);

        ((string?)state["state"]).ShouldBe("held");
        ((string?)state["code"]).ShouldStartWith("HFB4");
        ((string?)state["reason"]).ShouldNotBeNullOrWhiteSpace();
        using var report = await GetAsync($"sessions/{key}/report");
        await report.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6003");
    }

    // The wrong chart is the gravest mistake of all: same identifier, another person.
    [Theory]
    [InlineData("familyName", "Brackwater")]
    [InlineData("birthDate", "2009-02-21")]
    public async Task Post_ChartOfAnotherPerson_IsHeld(string field, string value)
    {
        var node = JsonNode.Parse(Example("lindqvale-visit-2"))!;
        node["sessionId"] = $"other-{field}";
        node["patient"]![field] = value;
        var key = await Clinic.SubmitAsync(service.Api, node.ToJsonString(), Cancellation);

        var state = await RestingAsync(key);

        ((string?)state["state"]).ShouldBe("held", state.ToJsonString());
        (await Clinic.SearchAsync(
            service.Process.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{key}", Cancellation)).ShouldBeEmpty();
    }

    [Fact]
    public async Task Get_UnknownSession_IsNotFound()
    {
        foreach (var path in new[] { $"sessions/{Unknown}", $"sessions/{Unknown}/bundle" })
        {
            using var answer = await GetAsync(path);

            await answer.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6002");
        }
    }

    private Task<HttpResponseMessage> GetAsync(string path) => service.Api.GetAsync(new Uri(path, UriKind.Relative), Cancellation);

    private Task<string> BundleAsync(string key) => service.Api.GetStringAsync(new Uri($"sessions/{key}/bundle", UriKind.Relative), Cancellation);

    /// <summary>Sessions in the ledger in any state, so that what is being delivered meanwhile changes nothing.</summary>
    private async Task<int> CountAsync() =>
        (await Clinic.GetAsync(service.Api, "ledger/entries?all=true&take=500", Cancellation))["entries"]!.AsArray().Count;

    private async Task<JsonNode> RestingAsync(string key)
    {
        while (true)
        {
            var state = await Clinic.GetAsync(service.Api, $"sessions/{key}", Cancellation);
            if ((string?)state["state"] is not ("accepted" or "sending"))
            {
                return state;
            }

            await Task.Delay(50, Cancellation);
        }
    }
}
