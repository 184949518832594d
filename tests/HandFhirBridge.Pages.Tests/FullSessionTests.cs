using System.Net;
using System.Text;
using System.Text.Json;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests;

/// <summary>A whole session by touch, from an empty tablet into the record.</summary>
public sealed class FullSessionTests(Browser browser, Clinic clinic)
{
    private static readonly string[] Tasks =
        ["writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects"];

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(390, 844)]
    [InlineData(820, 1180)]
    [InlineData(1280, 800)]
    public async Task Session_StoppedDeclinedRuledOutAndNetworkLost_EndsInTheRecordAsTheSameSessionByFile(int width, int height)
    {
        await using var context = await browser.NewContextAsync(width, height);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync(cap: "120.0", ruledOut: "right");
        await therapist.Page.EvaluateAsync("() => navigator.serviceWorker.ready");
        // Presses are stamped half a second back; none may come before the session began.
        await therapist.OlderThanAsync(await therapist.Page.EvaluateAsync<double>("() => performance.now() / 1000") + 0.5);

        var trials = await GiveTrialsAsync(therapist);
        await therapist.Key("comment").FillAsync("Swelling down.");
        var sent = await SendWhenBackAsync(therapist);
        await therapist.WaitForStateAsync("In the record");

        // The same session as somebody would have typed it into a file, from what stood on the screen.
        var (id, byFile) = ByFile(sent, trials);
        Canonical(sent).ShouldBe(Canonical(byFile));
        (await clinic.SubmitAsync(byFile)).ShouldBe(HttpStatusCode.Accepted);
        (await clinic.SubmitAsync(byFile.Replace("\"seconds\": 12.40", "\"seconds\": 12.41", StringComparison.Ordinal))).ShouldBe(HttpStatusCode.Conflict);

        // Read back from the record, digits as typed.
        var report = await clinic.GetAsync($"sessions/harbour-hand-clinic/{id}/report");
        var rows = report.GetProperty("rows").EnumerateArray().ToArray();
        rows.Length.ShouldBe(14);
        rows[0].GetProperty("seconds").GetRawText().ShouldBe("12.40");
        rows.Single(r => Is(r, "card-turning", "left")).GetProperty("outcome").GetString().ShouldBe("stopped-at-cap");
        rows.Single(r => Is(r, "stacking-checkers", "left")).GetProperty("outcome").GetString().ShouldBe("declined");
        rows.Single(r => Is(r, "large-heavy-objects", "right")).GetProperty("outcome").GetString().ShouldBe("not-given");
        (await clinic.RecordAsync($"Observation?patient.identifier=HHC-004417&_count=500")).ShouldContain("\"value\":12.40");
    }

    [Fact]
    public async Task Session_OfPatientUnknownToTheRecord_IsHeldAndSaysWhy()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.SetUpDeviceAsync();
        await therapist.NewSessionAsync("HHC-777777");
        await therapist.Key("family-name").FillAsync("Nobody");
        await therapist.Key("birth-date").FillAsync("1980-05-05");
        await therapist.BeforeAsync();
        foreach (var _ in Tasks)
        {
            await therapist.TypeTrialAsync("left", "11.10");
            await therapist.TypeTrialAsync("right", "10.00");
        }

        await therapist.SendAsync();

        await therapist.WaitForStateAsync("Held");
        (await therapist.Page.Locator(".reason").InnerTextAsync()).Length.ShouldBeGreaterThan("Why:".Length + 10);
        var inspection = new Inspection(therapist.Page);
        await inspection.LookAsync("held");
        inspection.Found.ShouldBeEmpty();
    }

    [Fact]
    public async Task Correction_BeforeSending_KeepsTheOldValueInTheDocument()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        foreach (var _ in Tasks)
        {
            await therapist.TypeTrialAsync("left", "12.40");
            await therapist.TypeTrialAsync("right", "10.00");
        }

        await therapist.Key("correct-writing-left").ClickAsync();
        await therapist.Key("typed").FillAsync("21.40");
        await therapist.Key("save").ClickAsync();
        await therapist.Page.Locator(".norm-sources").WaitForAsync();
        var sent = await therapist.SendAsync();

        var trial = JsonDocument.Parse(sent).RootElement.GetProperty("trials")[0];
        trial.GetProperty("seconds").GetRawText().ShouldBe("21.40");
        trial.GetProperty("note").GetString()!.ShouldContain("was seconds 12.40");
    }

    [Fact]
    public async Task Conclusion_SignedAndTrialCorrectedAfter_IsSignedAnewAndStandsInTheReport()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        foreach (var _ in Tasks)
        {
            await therapist.TypeTrialAsync("left", "12.40");
            await therapist.TypeTrialAsync("right", "10.00");
        }

        await therapist.Key("conclusion-draft").ClickAsync();
        var words = (await therapist.Key("conclusion").InputValueAsync()) + " Grip training goes on";
        words.ShouldContain("right-handed");
        await therapist.Key("conclusion").FillAsync(words);
        await Assertions.Expect(therapist.Key("send")).ToBeDisabledAsync();
        await therapist.ChooseAsync("conclusion-signed");
        await Assertions.Expect(therapist.Key("send")).ToBeEnabledAsync();
        await therapist.Key("correct-writing-left").ClickAsync();
        await therapist.Key("typed").FillAsync("21.40");
        await therapist.Key("save").ClickAsync();
        await Assertions.Expect(therapist.Key("conclusion-signed")).Not.ToBeCheckedAsync();
        await Assertions.Expect(therapist.Page.Locator(".conclusion .notice.warn")).ToBeVisibleAsync();
        await therapist.Key("conclusion-draft").ClickAsync();
        words = (await therapist.Key("conclusion").InputValueAsync()) + " Grip training goes on";
        words.ShouldContain("seven-task total 95.80 s");
        await therapist.Key("conclusion").FillAsync(words);
        await therapist.ChooseAsync("conclusion-signed");
        await therapist.Page.Locator(".norm-sources").WaitForAsync();
        var inspection = new Inspection(therapist.Page);
        await inspection.LookAsync("conclusion");
        inspection.Found.ShouldBeEmpty();
        var sent = JsonDocument.Parse(await therapist.SendAsync()).RootElement;
        await therapist.WaitForStateAsync("In the record");

        sent.GetProperty("conclusion").GetProperty("text").GetString().ShouldBe(words);
        var conclusion = (await clinic.GetAsync($"sessions/harbour-hand-clinic/{sent.GetProperty("sessionId").GetString()}/report")).GetProperty("conclusion");
        conclusion.GetProperty("text").GetString()!.ShouldContain(words + ". Signed by Ines Calderwick, occupational therapist, ");
        conclusion.GetProperty("signedBy").GetString()!.ShouldStartWith("Ines Calderwick, occupational therapist, on ");
    }

    [Fact]
    public async Task SecondVisit_RecordReachable_ShowsChangeSinceTheFirst()
    {
        var first = await File.ReadAllTextAsync(
            Path.Combine(AppContext.BaseDirectory, "examples", "sessions", "harbour-hand-clinic", "ashdenne-visit-1.json"), Cancellation);
        (await clinic.SubmitAsync(first)).ShouldBe(HttpStatusCode.Accepted);
        var id = JsonDocument.Parse(first).RootElement.GetProperty("sessionId").GetString();
        while ((await clinic.GetAsync($"sessions/harbour-hand-clinic/{id}")).GetProperty("state").GetString() != "delivered")
        {
            await Task.Delay(100, Cancellation);
        }

        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.SetUpDeviceAsync();
        await therapist.NewSessionAsync("HHC-004538");
        await therapist.BeforeAsync();
        foreach (var _ in Tasks)
        {
            await therapist.TypeTrialAsync("left", "11.10");
            await therapist.TypeTrialAsync("right", "10.00");
        }

        await therapist.Page.Locator(".change").First.WaitForAsync();
        (await therapist.Page.Locator(".change").First.InnerTextAsync()).ShouldStartWith("Since ");
    }

    // What the therapist wrote down while it happened: the outcome, and the seconds as they stood on the screen.
    private async Task<List<(string Task, string Hand, string Others)>> GiveTrialsAsync(Therapist therapist)
    {
        var given = new List<(string, string, string)>();
        foreach (var task in Tasks)
        {
            foreach (var hand in new[] { "left", "right" })
            {
                if (task == "simulated-feeding")
                {
                    await clinic.StopAsync();
                }

                given.Add((task, hand, await GiveAsync(therapist, task, hand)));
            }
        }

        return given;
    }

    private static async Task<string> GiveAsync(Therapist therapist, string task, string hand)
    {
        await therapist.Page.Locator($".trial.ready.{hand}").WaitForAsync();
        switch (task, hand)
        {
            case ("writing", "left"):
                await therapist.TypeTrialAsync(hand, "12.40");
                return "\"outcome\": \"completed\", \"seconds\": 12.40, \"source\": \"manual\"";
            case ("card-turning", "left"):
                await therapist.Key("type-time").ClickAsync();
                await therapist.ChooseAsync("outcome-stopped-at-cap");
                await therapist.ChooseAsync("departure-item-dropped");
                await therapist.Key("keep").ClickAsync();
                return "\"outcome\": \"stopped-at-cap\", \"seconds\": 120.0, \"source\": \"manual\", \"departures\": [\"item-dropped\"]";
            case ("stacking-checkers", "left"):
                await therapist.Key("declined").ClickAsync();
                await therapist.Key("reason").FillAsync("Tired.");
                await therapist.Key("keep").ClickAsync();
                return "\"outcome\": \"declined\", \"reason\": \"Tired.\"";
            case ("large-heavy-objects", "right"):
                await therapist.Key("leave-out").ClickAsync();
                await therapist.Key("keep").ClickAsync();
                return "\"outcome\": \"not-given\", \"reason\": \"Precaution: limit on lifting. Surgeon: nothing above 250 g.\"";
            default:
                await therapist.TouchAsync(TimeSpan.FromSeconds(0.45));
                await therapist.Page.Locator(".trial.running").WaitForAsync();
                await therapist.TouchAsync();
                await therapist.Page.Locator(".trial.ended").WaitForAsync();
                var seconds = await therapist.TimeTakenAsync();
                await therapist.Key("keep").ClickAsync();
                return $"\"outcome\": \"completed\", \"seconds\": {seconds}, \"source\": \"timer\"";
        }
    }

    private async Task<string> SendWhenBackAsync(Therapist therapist)
    {
        await therapist.Key("send").ClickAsync();
        await therapist.Page.Locator("dialog .primary").ClickAsync();
        await therapist.WaitForStateAsync("Waiting to be sent");
        (await therapist.Page.Locator(".chip.here").InnerTextAsync()).ShouldStartWith("1 unsent");
        var document = (await therapist.KeptAsync())[0].GetProperty("outgoing").GetString()!;
        await clinic.StartAsync();
        await therapist.Key("Send now").ClickAsync();
        return document;
    }

    private static (string Id, string Document) ByFile(string sent, List<(string Task, string Hand, string Others)> trials)
    {
        var root = JsonDocument.Parse(sent).RootElement;
        string Of(string name) => root.GetProperty(name).GetString()!;
        var started = root.GetProperty("trials").EnumerateArray()
            .ToDictionary(t => (t.GetProperty("task").GetString(), t.GetProperty("hand").GetString()), t => t.TryGetProperty("startedAt", out var at) ? at.GetString() : null);
        var lines = trials.Select(t => started[(t.Task, t.Hand)] is { } at
            ? $$"""{ "task": "{{t.Task}}", "hand": "{{t.Hand}}", {{t.Others}}, "startedAt": "{{at}}" }"""
            : $$"""{ "task": "{{t.Task}}", "hand": "{{t.Hand}}", {{t.Others}} }""");
        return (Of("sessionId"), $$"""
            {
              "schemaVersion": "1", "sessionId": "{{Of("sessionId")}}", "site": "harbour-hand-clinic", "instrument": { "id": "seven-task", "version": "1" },
              "patient": { "identifier": { "system": "https://harbour-hand-clinic.example/id/patient", "value": "HHC-004417" }, "familyName": "Tarrowby", "birthDate": "1988-04-12" },
              "performer": { "identifier": { "system": "https://harbour-hand-clinic.example/id/staff", "value": "HHC-T-03" }, "name": "Ines Calderwick", "role": "occupational-therapist" },
              "startedAt": "{{Of("startedAt")}}", "endedAt": "{{Of("endedAt")}}",
              "dominance": { "handedness": "right", "howKnown": "stated" }, "sexForNorm": "female",
              "setup": { "glasses": "not-needed", "templateBoard": false, "capSeconds": 120.0 },
              "precautions": [
                { "precaution": "lifting-restriction", "answer": "yes", "rulesOut": ["large-heavy-objects"], "hands": ["right"], "note": "Surgeon: nothing above 250 g." },
                { "precaution": "recent-tendon-repair", "answer": "no" }, { "precaution": "unhealed-fracture", "answer": "no" }, { "precaution": "open-wound", "answer": "no" },
                { "precaution": "recent-nerve-or-joint-surgery", "answer": "no" }, { "precaution": "pain-limits-use", "answer": "no" }
              ],
              "trials": [ {{string.Join(",\n", lines)}} ],
              "comment": "Swelling down."
            }
            """);
    }

    private static string Canonical(string document)
    {
        var read = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(Encoding.UTF8.GetBytes(document));
        read.Succeeded.ShouldBeTrue(string.Join('\n', read.Problems.Select(p => $"{p.Location} {p.Message}")));
        return Encoding.UTF8.GetString(SessionWriter.Write(read.Value));
    }

    private static bool Is(JsonElement row, string task, string hand) =>
        row.GetProperty("task").GetString() == task && row.GetProperty("hand").GetString() == hand;
}
