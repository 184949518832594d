using System.Net;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>The ledger over HTTP, as docs/operations.md promises it.</summary>
public sealed class LedgerTests(RunningService service) : IClassFixture<RunningService>
{
    private const string Said = """ "by":"R. Okafor","reason":"Registered the chart." """;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Entries_HeldSession_IsGroupedByItsCodeAndNamesNobody()
    {
        var key = await HeldAsync("grouped-1", "Marrowick");

        var page = await EntriesAsync("?state=held");

        page["groups"]!.AsArray().ShouldContain(g => (string?)g!["code"] == "HFB4109" && (string?)g["state"] == "held" && (int)g["entries"]! >= 1);
        page["entries"]!.AsArray().ShouldContain(e => $"{e!["site"]}/{e["sessionId"]}" == key && (string?)e["code"] == "HFB4109");
        foreach (var secret in new[] { "Marrowick", "Tarrowby", "HHC-004417" })
        {
            page.ToJsonString().ShouldNotContain(secret);
        }
    }

    [Fact]
    public async Task Entries_Paged_GivesEachOnceOldestFirst()
    {
        await HeldAsync("paged-1", "Marrowick");
        await HeldAsync("paged-2", "Marrowick");

        var whole = (await EntriesAsync("?all=true&take=500"))["entries"]!.AsArray();
        var first = await EntriesAsync("?all=true&take=1");
        var rest = await EntriesAsync("?all=true&take=500&skip=1");

        ((bool)first["more"]!).ShouldBeTrue();
        first["entries"]!.AsArray().Concat(rest["entries"]!.AsArray()).Select(Key).ShouldBe(whole.Select(Key));
        whole.Select(e => DateTimeOffset.Parse((string)e!["acceptedAt"]!, System.Globalization.CultureInfo.InvariantCulture)).ShouldBeInOrder();
    }

    [Theory]
    [InlineData("?state=lost", "state")]
    [InlineData("?take=0", "take")]
    [InlineData("?take=501", "take")]
    [InlineData("?skip=-1", "skip")]
    public async Task Entries_AskedInAWayWithoutAnswer_AreRefusedWithThePlace(string query, string place)
    {
        using var answer = await service.Api.GetAsync(new Uri($"ledger/entries{query}", UriKind.Relative), Cancellation);

        (await answer.ShouldBeRefusedAsync(HttpStatusCode.BadRequest, "HFB6023")).Expression.ShouldBe([place]);
    }

    [Fact]
    public async Task Entry_HeldRetriedAndHeldAgain_ShowsAttemptsAndDecisionsWithoutThePatient()
    {
        var key = await HeldAsync("history-1", "Marrowick");
        using (var retried = await PostAsync($"{key}/retry", """{"by":"R. Okafor","reason":"Marrowick, born 1988-04-12, is HHC-004417 now.","revision":1}"""))
        {
            retried.StatusCode.ShouldBe(HttpStatusCode.OK, await retried.Content.ReadAsStringAsync(Cancellation));
        }

        await StateAsync(key, "held", 2);
        var history = await Clinic.GetAsync(service.Api, $"ledger/entries/{key}", Cancellation);

        history["attempts"]!.AsArray().Count.ShouldBe(2);
        var decision = history["decisions"]!.AsArray().ShouldHaveSingleItem()!;
        ((string?)decision["action"], (string?)decision["by"], (string?)decision["caller"]).ShouldBe(("retry", "R. Okafor", "demonstration"));
        ((string?)decision["reason"]).ShouldNotBeNull().ShouldEndWith("is [patient] now.");
        history["actions"]!.AsArray().Select(a => (string?)a).ShouldBe(["retry", "resolve", "withdraw"]);
        foreach (var secret in new[] { "Marrowick", "HHC-004417", "1988-04-12" })
        {
            history.ToJsonString().ShouldNotContain(secret);
        }
    }

    [Fact]
    public async Task Resolve_HeldSession_IsDelivered()
    {
        var key = await HeldAsync("resolved-1", "Marrowick");
        var chart = (await Clinic.SearchAsync(service.Process.Record, "Patient?identifier=https://harbour-hand-clinic.example/id/patient|HHC-004417", Cancellation)).ShouldHaveSingleItem();

        using var resolved = await PostAsync($"{key}/resolve", $$"""{ {{Said}}, "patientId":"{{chart["id"]}}" }""");

        resolved.StatusCode.ShouldBe(HttpStatusCode.OK, await resolved.Content.ReadAsStringAsync(Cancellation));
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        using var late = await PostAsync($"{key}/hold", $$"""{ {{Said}} }""");
        await late.ShouldBeRefusedAsync(HttpStatusCode.Conflict, "HFB6022");
    }

    [Fact]
    public async Task Retry_ByFilterOverASpan_PutsAllThatMatchInLineSpreadInTime()
    {
        await HeldAsync("many-1", "Marrowick", "alder-street-therapy");
        await HeldAsync("many-2", "Marrowick", "alder-street-therapy");

        using var none = await Clinic.PostAsync(service.Api, $$"""{ {{Said}}, "filter":{"code":"HFB4004","site":"alder-street-therapy"} }""", Cancellation, "ledger/retry");
        using var all = await Clinic.PostAsync(
            service.Api, $$"""{ {{Said}}, "over":"2h", "filter":{"state":"held","code":"HFB4109","site":"alder-street-therapy","target":"default"} }""", Cancellation, "ledger/retry");

        ((int)JsonNode.Parse(await none.Content.ReadAsStringAsync(Cancellation))!["entries"]!).ShouldBe(0);
        all.StatusCode.ShouldBe(HttpStatusCode.Accepted);
        var batch = JsonNode.Parse(await all.Content.ReadAsStringAsync(Cancellation))!;
        ((int)batch["entries"]!).ShouldBe(2);
        ((DateTimeOffset)batch["last"]! - (DateTimeOffset)batch["first"]!).ShouldBe(TimeSpan.FromHours(1));
        using var held = await PostAsync("alder-street-therapy/many-2/hold", $$"""{ {{Said}} }""");
        ((string?)JsonNode.Parse(await held.Content.ReadAsStringAsync(Cancellation))!["code"]).ShouldBe("HFB5011");
    }

    [Theory]
    [InlineData("retry", """{"by":"R. Okafor"}""", "$.reason")]
    [InlineData("hold", """{"by":" ","reason":"Wait."}""", "$.by")]
    [InlineData("hold", """{"by":"R. Okafor","reason":"Wait.","patientId":"1"}""", "$.patientId")]
    [InlineData("resolve", """{"by":"R. Okafor","reason":"Seen."}""", "$.patientId")]
    [InlineData("resolve", """{"by":"R. Okafor","reason":"Seen.","patientId":"Patient/1"}""", "$.patientId")]
    [InlineData("retry", """{"by":"R. Okafor","reason":"Wait.","revison":2}""", "$.revison")]
    [InlineData("retry", """[]""", "$")]
    [InlineData("retry", """{"by":""", "$")]
    public async Task Decide_BodyIncomplete_IsRefusedWithItsPlace(string action, string body, string place)
    {
        using var answer = await PostAsync($"harbour-hand-clinic/none/{action}", body);

        (await answer.ShouldBeRefusedAsync(HttpStatusCode.UnprocessableEntity, "HFB6021")).Expression.ShouldHaveSingleItem().ShouldStartWith(place);
    }

    [Theory]
    [InlineData("""{"by":"R. Okafor","reason":"Mended.","over":"soon"}""", "$.over")]
    [InlineData("""{"by":"R. Okafor","reason":"Mended.","over":"8d"}""", "$.over")]
    [InlineData("""{"by":"R. Okafor","reason":"Mended.","filter":{"state":"delivered"}}""", "$.filter.state")]
    [InlineData("""{"by":"R. Okafor","reason":"Mended.","filter":{"codes":"HFB4001"}}""", "$.filter.codes")]
    public async Task RetryAll_BodyThatDoesNotFit_IsRefusedWithItsPlace(string body, string place)
    {
        using var answer = await Clinic.PostAsync(service.Api, body, Cancellation, "ledger/retry");

        (await answer.ShouldBeRefusedAsync(HttpStatusCode.UnprocessableEntity, "HFB6021")).Expression.ShouldBe([place]);
    }

    [Fact]
    public async Task Decide_SessionThatIsNotThereOrHasMovedOn_IsRefused()
    {
        using var none = await PostAsync("harbour-hand-clinic/none/retry", $$"""{ {{Said}} }""");
        await none.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6002");
        var key = await HeldAsync("moved-1", "Marrowick");

        using var stale = await PostAsync($"{key}/retry", $$"""{ {{Said}}, "revision":2 }""");

        await stale.ShouldBeRefusedAsync(HttpStatusCode.Conflict, "HFB6022");
        using var gone = await service.Api.GetAsync(new Uri($"ledger/entries/{key}?revision=2", UriKind.Relative), Cancellation);
        await gone.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6002");
    }

    private static string Key(JsonNode? entry) => $"{entry!["site"]}/{entry["sessionId"]}/{entry["revision"]}";

    private async Task<JsonNode> EntriesAsync(string query) => await Clinic.GetAsync(service.Api, $"ledger/entries{query}", Cancellation);

    private Task<HttpResponseMessage> PostAsync(string path, string body) => Clinic.PostAsync(service.Api, body, Cancellation, $"ledger/entries/{path}");

    /// <summary>A session under a family name that the chart does not have: it must be held (docs/delivery.md, which chart).</summary>
    private async Task<string> HeldAsync(string id, string familyName, string site = "harbour-hand-clinic")
    {
        var document = JsonNode.Parse(await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
        document["site"] = site;
        document["sessionId"] = id;
        document["patient"]!["familyName"] = familyName;
        var key = await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        await StateAsync(key, "held", 1);
        return key;
    }

    private async Task StateAsync(string key, string state, int attempts)
    {
        while (await Clinic.GetAsync(service.Api, $"sessions/{key}", Cancellation) is var now && ((string?)now["state"] != state || now["attempts"]!.AsArray().Count < attempts))
        {
            await Task.Delay(50, Cancellation);
        }
    }
}
