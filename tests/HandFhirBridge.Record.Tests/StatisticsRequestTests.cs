using System.Globalization;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// http://hl7.org/fhir/OperationDefinition/Observation-stats, as of R4; quoted are its words.
public sealed class StatisticsRequestTests(StatisticsRequestTests.Filled server) : IClassFixture<StatisticsRequestTests.Filled>
{
    // "Observations with a status of 'entered-in-error' will be excluded from the calculations"; count: "valid measurements ... that contributed
    // to the other statistical outputs"; total-count: "including observations that were ignored because they did not contain valid result
    // values"; "resources having valueQuantity elements that have UCUM unit codes"; "If modifier extensions are present in the Observation,
    // they must be accounted for". A comparator makes the value a bound (R4 datatypes.html#Quantity), which is no result to average.
    [Theory]
    [InlineData("stopped", 2, 4, "2 of 4 measurements are left out of every figure but total-count: 2 with a comparator")]
    [InlineData("notmade", 2, 4, "1 cancelled")]
    [InlineData("wrong", 2, 2, "1 entered in error, not counted.")]
    [InlineData("units", 2, 4, "2 without a unit code of UCUM")]
    [InlineData("modified", 2, 3, "1 with a modifier extension")]
    [InlineData("early", 2, 2, "1 of 2 values are preliminary.")]
    public async Task Stats_OfWhatIsNoPlainValue_LeavesItOutAndSaysSo(string patient, int count, int total, string note)
    {
        var answer = await StatsAsync($"subject=Patient/{patient}&code=time&system=urn:c&statistic=average&statistic=count&statistic=total-count");

        var statistics = answer.Json["parameter"]!.AsArray().ShouldHaveSingleItem()!["resource"]!;
        Figures(statistics).ShouldBe([11, count, total]);
        string.Join(' ', statistics["note"]!.AsArray().Select(n => (string)n!["text"]!)).ShouldContain(note);
    }

    // The values are 10 and 12 seconds beside a minute.
    [Fact]
    public async Task Stats_OfValuesInTwoUnits_IsRefusedUnlessOnlyCounted()
    {
        var refused = await server.Inner.GetAsync("Observation/$stats?subject=Patient/mixed&code=time&system=urn:c&statistic=count&statistic=maximum");
        refused.Status.ShouldBe(422);
        // "If unsuccessful, an OperationOutcome with an error message will be returned."
        ((string)refused.Json["resourceType"]!).ShouldBe("OperationOutcome");
        refused.Text.ShouldContain("min, s");

        var counted = await StatsAsync("subject=Patient/mixed&code=time&system=urn:c&statistic=count&statistic=total-count");
        Figures(counted.Json["parameter"]![0]!["resource"]!).ShouldBe([3, 3]);
    }

    // "For LOINC codes that are panels, e.g., 85354-9 ..., the stats operation returns statistics for each of the individual panel measurements".
    [Theory]
    [InlineData("subject=Patient/bp&code=85354-9&system=http://loinc.org", "8480-6:110 8462-4:65")]
    // "will evaluate all relevant Observations with this code in Observation.code and Observation.component.code"
    [InlineData("subject=Patient/bp&code=8480-6&system=http://loinc.org", "8480-6:110")]
    // "one observation for each code"
    [InlineData("subject=Patient/bp&code=8462-4&code=8480-6&system=http://loinc.org", "8462-4:65 8480-6:110")]
    [InlineData("subject=Patient/bp&code=85354-9&code=8480-6&system=http://loinc.org", "8480-6:110 8462-4:65")]
    // "1) referenced in" hasMember; a member of a member too, one of another patient not.
    [InlineData("subject=Patient/hand&code=panel&system=urn:c", "card:7 page:20")]
    [InlineData("subject=Patient/hand&code=report&system=urn:c", "card:7 page:20")]
    public async Task Stats_OfAPanel_GivesThoseOfItsMeasurements(string query, string figures)
    {
        var answer = await StatsAsync(query + "&statistic=average");

        string.Join(' ', answer.Json["parameter"]!.AsArray().Select(p => $"{p!["resource"]!["code"]!["coding"]![0]!["code"]}:{Figures(p["resource"]!).Single()}")).ShouldBe(figures);
    }

    // "The Observation will also contain a subject, effectivePeriod, and code reflecting the input parameters. The status is fixed to final."
    [Theory]
    [InlineData("""{"start":"2026-03-01","end":"2026-03-02"}""", 2, """{"start":"2026-03-01","end":"2026-03-02"}""")]
    [InlineData("""{"start":"2026-03-02"}""", 2, """{"start":"2026-03-02"}""")]
    [InlineData("""{"end":"2026-02"}""", 0, """{"end":"2026-02"}""")]
    [InlineData(null, 3, """{"start":"2026-03-01T00:00:00+00:00","end":"2026-03-03T10:00:00+00:00"}""")]
    public async Task Stats_OverAPeriod_CountsWhatLiesInIt(string? period, int count, string effective)
    {
        var answer = await server.Inner.SendAsync(HttpMethod.Post, "Observation/$stats", $$"""
            {"resourceType":"Parameters","parameter":[{"name":"subject","valueUri":"Patient/days"},{"name":"coding","valueCoding":{"system":"urn:c","code":"time"} },
             {{(period is null ? "" : $$"""{"name":"period","valuePeriod":{{period}} },""")}} {"name":"statistic","valueCode":"count"}]}
            """);

        answer.Status.ShouldBe(200, answer.Text);
        var statistics = answer.Json["parameter"]!.AsArray().ShouldHaveSingleItem()!["resource"]!;
        Figures(statistics).ShouldBe([count]);
        statistics["effectivePeriod"]!.ToJsonString().ShouldBe(JsonNode.Parse(effective)!.ToJsonString());
        ((string)statistics["status"]!, (string)statistics["subject"]!["reference"]!, (string)statistics["code"]!["coding"]![0]!["code"]!).ShouldBe(("final", "Patient/days", "time"));
    }

    // "the duration = "1" represents the last hour - the time period from on hour ago to now"
    [Theory]
    [InlineData("1", 1)]
    [InlineData("2.5", 2)]
    public async Task Stats_OverADuration_CountsTheLastHours(string hours, int count)
    {
        var answer = await StatsAsync($"subject=Patient/recent&code=time&system=urn:c&duration={hours}&statistic=count");

        var statistics = answer.Json["parameter"]![0]!["resource"]!;
        Figures(statistics).ShouldBe([count]);
        var (start, end) = (At("start"), At("end"));
        (end - start).TotalHours.ShouldBe(double.Parse(hours, CultureInfo.InvariantCulture), 0.001);

        DateTimeOffset At(string name) => DateTimeOffset.Parse((string)statistics["effectivePeriod"]![name]!, CultureInfo.InvariantCulture);
    }

    // "Whether to return the observations on which the statistics are based"; "a limit may also be specified to limit the number"; "If the include
    // parameter is absent or equal to "false" the limit parameter SHALL be ignored by the server".
    [Theory]
    [InlineData("", "")]
    [InlineData("&limit=1", "")]
    [InlineData("&include=false&limit=1", "")]
    [InlineData("&include=true", "days2 days1 days0")]
    [InlineData("&include=true&limit=2", "days2 days1")]
    public async Task Stats_Include_GivesTheSources(string more, string ids)
    {
        var answer = await StatsAsync("subject=Patient/days&code=time&system=urn:c&statistic=count" + more);

        string.Join(' ', answer.Json["parameter"]!.AsArray().Where(p => (string)p!["name"]! == "source").Select(p => (string)p!["resource"]!["id"]!)).ShouldBe(ids);
    }

    [Theory]
    [InlineData("code=time&system=urn:c&statistic=count", "subject")] // subject 1..1
    [InlineData("subject=Patient/days&subject=Patient/bp&code=time&system=urn:c&statistic=count", "subject")]
    [InlineData("subject=days&code=time&system=urn:c&statistic=count", "subject")]
    [InlineData("subject=Patient/days&statistic=count", "code")]
    [InlineData("subject=Patient/days&code=time&statistic=count", "system")] // "Provide along with a system"
    [InlineData("subject=Patient/days&system=urn:c&statistic=count", "code")]
    [InlineData("subject=Patient/days&coding=urn:c|time&statistic=count", "coding")]
    [InlineData("subject=Patient/days&code=time&system=urn:c", "statistic")] // statistic 1..*
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=max", "maximum")] // the value set's code
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&duration=day", "duration")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&duration=0", "duration")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&duration=99999999", "duration")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&period=2026", "period")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&include=perhaps", "include")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&include=true&limit=0", "limit")]
    [InlineData("subject=Patient/days&code=time&system=urn:c&statistic=count&shoe=1", "shoe")]
    public async Task Stats_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.Inner.GetAsync($"Observation/$stats?{query}");

        answer.Status.ShouldBe(400, answer.Text);
        ((string)answer.Json["issue"]![0]!["details"]!["text"]!).ShouldContain(named);
    }

    // statistics 1..*: "one observation for each code", also where nothing was measured.
    [Fact]
    public async Task Stats_OfNothing_SaysThatThereIsNone()
    {
        var answer = await StatsAsync("subject=Patient/nobody&code=time&system=urn:c&statistic=count&statistic=average&statistic=regression");

        var components = answer.Json["parameter"]![0]!["resource"]!["component"]!.AsArray();
        components[0]!["valueQuantity"]!["value"]!.GetValue<int>().ShouldBe(0);
        components.Skip(1).ShouldAllBe(c => c!["valueQuantity"] == null && c["dataAbsentReason"] != null);
    }

    private static IEnumerable<double> Figures(JsonNode statistics) => statistics["component"]!.AsArray().Select(c => c!["valueQuantity"]!["value"]!.GetValue<double>());

    private async Task<RecordServer.Answer> StatsAsync(string query)
    {
        var answer = await server.Inner.GetAsync($"Observation/$stats?{query}");
        answer.Status.ShouldBe(200, answer.Text);
        return answer;
    }

    /// <summary>Courses of some patients.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        private const string Ucum = "\"system\":\"http://unitsofmeasure.org\"";

        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            foreach (var patient in new[] { "stopped", "notmade", "wrong", "units", "modified", "mixed" })
            {
                await Inner.PutAsync(Time(patient + "1", patient, Seconds("10")), Time(patient + "2", patient, Seconds("12")));
            }

            await Inner.PutAsync(
                Time("stopped3", "stopped", Seconds("45", "\"comparator\":\">\",")),
                Time("stopped4", "stopped", Seconds("45", "\"comparator\":\">=\",")),
                Time("notmade3", "notmade", "\"dataAbsentReason\":{\"text\":\"declined\"}", status: "cancelled"),
                Time("notmade4", "notmade", "\"dataAbsentReason\":{\"text\":\"lost\"}"),
                Time("wrong3", "wrong", Seconds("99"), status: "entered-in-error"),
                Time("units3", "units", "\"valueQuantity\":{\"value\":40,\"unit\":\"s\"}"),
                Time("units4", "units", "\"valueQuantity\":{\"value\":40,\"unit\":\"s\",\"system\":\"urn:own\",\"code\":\"s\"}"),
                Time("modified3", "modified", "\"modifierExtension\":[{\"url\":\"urn:not\",\"valueBoolean\":true}]," + Seconds("40")),
                Time("early1", "early", Seconds("10"), status: "preliminary"),
                Time("early2", "early", Seconds("12"), status: "corrected"),
                Time("mixed3", "mixed", $"\"valueQuantity\":{{\"value\":1,{Ucum},\"code\":\"min\"}}"),
                Pressure("bp1", "100", "60"),
                Pressure("bp2", "120", "70"));
            await PanelAsync();
            var now = TimeProvider.System.GetUtcNow();
            await Inner.PutAsync(
                [
                    .. new[] { "2026-03-01", "2026-03-02T23:59:59Z", "2026-03-03T10:00:00Z" }.Select((at, i) => Time($"days{i}", "days", Seconds("10"), at)),
                    .. new[] { 0.5, 2, 3 }.Select((ago, i) => Time($"recent{i}", "recent", Seconds("10"), now.AddHours(-ago).ToString("O", CultureInfo.InvariantCulture))),
                ]);
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();

        private Task PanelAsync() => Inner.PutAsync(
            Time("card1", "hand", Seconds("6"), code: "card"),
            Time("card2", "hand", Seconds("8"), code: "card"),
            Time("page1", "hand", Seconds("20"), code: "page"),
            Time("stray", "other", Seconds("90"), code: "page"),
            Time("unmeant", "hand", Seconds("77"), code: "page"),
            Time("panel1", "hand", Members("card1", "page1", "stray"), code: "panel"),
            Time("panel2", "hand", Members("card2", "page1"), code: "panel"),
            Time("report", "hand", Members("panel1", "panel2"), code: "report"));

        private static string Members(params string[] ids) => $"\"hasMember\":[{string.Join(',', ids.Select(i => $$"""{"reference":"Observation/{{i}}"}"""))}]";

        private static string Seconds(string value, string more = "") => $"\"valueQuantity\":{{\"value\":{value},{more}\"unit\":\"s\",{Ucum},\"code\":\"s\"}}";

        private static string Time(string id, string patient, string value, string at = "2026-03-01", string status = "final", string code = "time") => $$"""
            {"resourceType":"Observation","id":"{{id}}","status":"{{status}}","code":{"coding":[{"system":"urn:c","code":"{{code}}"}]},
             "subject":{"reference":"Patient/{{patient}}"},"effectiveDateTime":"{{at}}",{{value}} }
            """;

        private static string Pressure(string id, string systolic, string diastolic) => $$"""
            {"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"http://loinc.org","code":"85354-9"}]},"subject":{"reference":"Patient/bp"},
             "effectiveDateTime":"2026-03-01","component":[
              {"code":{"coding":[{"system":"http://loinc.org","code":"8480-6"}]},"valueQuantity":{"value":{{systolic}},{{Ucum}},"code":"mm[Hg]"} },
              {"code":{"coding":[{"system":"http://loinc.org","code":"8462-4"}]},"valueQuantity":{"value":{{diastolic}},{{Ucum}},"code":"mm[Hg]"} }]}
            """;
    }
}
