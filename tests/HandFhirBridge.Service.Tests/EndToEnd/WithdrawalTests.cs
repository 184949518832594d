using System.Net;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Http;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>
/// Delivered, corrected, withdrawn, as the record shows it after each step. R4 (http://hl7.org/fhir/R4/diagnosticreport.html, notes):
/// a withdrawn report and its Observations are entered-in-error, and conclusion and narrative say so.
/// </summary>
public sealed class WithdrawalTests(RunningService service) : IClassFixture<RunningService>
{
    private const string Reason = "Tested the neighbour by mistake.";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private HttpClient Record => service.Process.Record;

    [Fact]
    public async Task Session_DeliveredCorrectedWithdrawn_LeavesNoValidResult()
    {
        // The example has a void first attempt at card turning with the left hand.
        var document = Example("vandermoss-visit-2");
        var key = await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        (await ResultsAsync(key)).ShouldAllBe(r => Status(r) != "entered-in-error");
        var subject = (string)(await ReportAsync(key))["subject"]!["reference"]!;

        document["revision"] = 2;
        var trials = document["trials"]!.AsArray();
        trials.Remove(trials.Single(t => (bool?)t!["counted"] == false));
        await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        var dropped = (await ResultsAsync(key)).Where(r => Status(r) == "entered-in-error").ShouldHaveSingleItem();
        ((string?)dropped["identifier"]![0]!["value"]).ShouldBe($"{key}/card-turning/left/1");
        var shown = JsonNode.Parse(await service.Api.GetStringAsync(new Uri($"sessions/{key}/report", UriKind.Relative), Cancellation))!;
        ((int)shown["revision"]!, shown["notCounted"]!.AsArray().Count).ShouldBe((2, 0));

        using (var accepted = await PostAsync(key, new() { ["reason"] = Reason, ["by"] = "R. Okafor" }))
        {
            accepted.StatusCode.ShouldBe(HttpStatusCode.Accepted, await accepted.Content.ReadAsStringAsync(Cancellation));
        }

        var state = await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        ((int)state["revision"]!).ShouldBe(3);
        ((string?)state["withdrawn"]!["reason"], (string?)state["withdrawn"]!["by"]).ShouldBe((Reason, "R. Okafor"));
        ((string?)state["withdrawn"]!["statement"]).ShouldNotBeNull().ShouldStartWith("Withdrawn");

        // Nothing of the session is found among valid results; all of it is there as a trace.
        var valid = await Clinic.SearchAsync(Record, $"Observation?subject={subject}&status=final,amended,corrected,cancelled,preliminary,registered", Cancellation);
        valid.Where(r => IsOf(r, key)).ShouldBeEmpty();
        (await ResultsAsync(key)).Count.ShouldBe(14 + 1 + 4 + 2 + 1);
        (await ResultsAsync(key)).ShouldAllBe(r => Status(r) == "entered-in-error");
        (await Clinic.SearchAsync(Record, $"DiagnosticReport?subject={subject}&status=final,amended,corrected", Cancellation)).Where(r => IsOf(r, key)).ShouldBeEmpty();
        var report = await ReportAsync(key);
        Status(report).ShouldBe("entered-in-error");
        ((string?)report["conclusion"]).ShouldNotBeNull().ShouldContain(Reason);
        ((string?)report["text"]!["div"]).ShouldNotBeNull().ShouldContain("WITHDRAWN");

        // And nobody is shown it as a score.
        using var read = await service.Api.GetAsync(new Uri($"sessions/{key}/report", UriKind.Relative), Cancellation);
        var issue = await read.ShouldBeRefusedAsync(HttpStatusCode.Gone, "HFB3208");
        issue.Details!.Text.ShouldNotBeNull().ShouldContain(Reason);

        var identity = document["patient"]!["identifier"]!;
        var course = (await Clinic.GetAsync(
            service.Api, $"courses?system={Uri.EscapeDataString((string)identity["system"]!)}&value={Uri.EscapeDataString((string)identity["value"]!)}", Cancellation))["course"]!;
        ((int)course["withdrawn"]!, course["sessions"]!.AsArray().Count(s => key.EndsWith((string)s!["sessionId"]!, StringComparison.Ordinal))).ShouldBe((1, 0));

        await NothingFollowsAsync(key, document);
    }

    [Theory]
    [InlineData("""{"reason":"Wrong."}""", "$.by")]
    [InlineData("""{"by":"R. Okafor","reason":" "}""", "$.reason")]
    [InlineData("""{"by":"R. Okafor","reason":3}""", "$.reason")]
    [InlineData("""{"by":"R. Okafor","reason":"Wrong.","force":"yes"}""", "$.force")]
    [InlineData("""[]""", "$")]
    [InlineData("""{"reason":""", "$.reason")]
    public async Task Withdraw_BodyIncomplete_IsRefusedWithItsPlace(string body, string place)
    {
        using var answer = await Clinic.PostAsync(service.Api, body, Cancellation, "sessions/harbour-hand-clinic/none/withdrawal");

        var issue = await answer.ShouldBeRefusedAsync(HttpStatusCode.UnprocessableEntity, "HFB6020");
        issue.Expression.ShouldBe([place]);
    }

    [Fact]
    public async Task Withdraw_NoSuchSession_IsNotFound()
    {
        using var answer = await PostAsync("harbour-hand-clinic/none", new() { ["reason"] = Reason, ["by"] = "R. Okafor" });

        await answer.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6002");
    }

    private async Task NothingFollowsAsync(string key, JsonNode document)
    {
        using var again = await PostAsync(key, new() { ["reason"] = Reason, ["by"] = "R. Okafor" });
        await again.ShouldBeRefusedAsync(HttpStatusCode.Conflict, "HFB5010");
        document["revision"] = 4;
        using var corrected = await Clinic.PostAsync(service.Api, document.ToJsonString(), Cancellation);
        await corrected.ShouldBeRefusedAsync(HttpStatusCode.Conflict, "HFB5010");
    }

    private Task<HttpResponseMessage> PostAsync(string key, JsonObject body) =>
        Clinic.PostAsync(service.Api, body.ToJsonString(), Cancellation, $"sessions/{key}/withdrawal");

    private async Task<JsonNode> ReportAsync(string key) => (await Clinic.SearchAsync(
        Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{key}", Cancellation)).ShouldHaveSingleItem();

    private async Task<List<JsonNode>> ResultsAsync(string key)
    {
        var subject = (string)(await ReportAsync(key))["subject"]!["reference"]!;
        return [.. (await Clinic.SearchAsync(Record, $"Observation?subject={subject}&_count=200", Cancellation)).Where(r => IsOf(r, key))];
    }

    private static bool IsOf(JsonNode resource, string key) =>
        ((string)resource["identifier"]![0]!["value"]!) is { } value && (value == key || value.StartsWith(key + "/", StringComparison.Ordinal));

    private static string Status(JsonNode resource) => (string)resource["status"]!;

    private static JsonNode Example(string name) =>
        JsonNode.Parse(File.ReadAllText(Clinic.ExampleSessions.Single(path => Path.GetFileNameWithoutExtension(path) == name)))!;
}
