using System.Text.Json;
using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Charts;

/// <summary>The chart page in Chromium, opened through an authorization server and over a FHIR server that others wrote.</summary>
public sealed class ChartPageTests : IClassFixture<SmartRecord>
{
    private async Task ShouldOpenReportsOfThisChartOnlyAsync(IPage page, string report)
    {
        await page.EvaluateAsync("() => document.querySelectorAll('details').forEach((part) => part.setAttribute('open', ''))");
        var opened = await page.RunAndWaitForPopupAsync(() => page.Locator($"a[href='report/{report}']").First.ClickAsync());
        (await opened.Locator("h1").InnerTextAsync()).ShouldStartWith("Seven-task");
        (await opened.Locator("dl").First.InnerTextAsync()).ShouldContain("HHC-004538");
        foreach (var pdf in await opened.Locator("a[href$='.pdf']").AllAsync())
        {
            var answer = await page.Context.APIRequest.GetAsync(new Uri(new Uri(opened.Url), await pdf.GetAttributeAsync("href")).AbsoluteUri);
            System.Text.Encoding.ASCII.GetString(await answer.BodyAsync(), 0, 5).ShouldBe("%PDF-");
        }

        var other = (string)(await record.GetAsync("Patient?family=Pellwick"))["entry"]![0]!["resource"]!["id"]!;
        var others = (string)(await record.GetAsync($"DiagnosticReport?patient={other}"))["entry"]![0]!["resource"]!["id"]!;
        (await page.Context.APIRequest.GetAsync(new Uri(record.Service, $"chart/report/{others}").AbsoluteUri)).Status.ShouldBe(404);
        await opened.CloseAsync();
    }

    private readonly SmartRecord record;
    private readonly Browser browser;

    public ChartPageTests(SmartRecord record, Browser browser)
    {
        Assert.SkipWhen(SmartRecord.Missing is not null, SmartRecord.Missing ?? "");
        (this.record, this.browser) = (record, browser);
    }

    [Fact]
    public async Task Page_OpenedFromTheRecordForOneReport_ShowsEveryObservationThereAndNoOther()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var page = await context.NewPageAsync();
        var patient = await record.PatientAsync("HHC-004538");
        var report = (string)(await record.GetAsync($"DiagnosticReport?patient={patient}"))["entry"]![0]!["resource"]!["id"]!;
        await page.GotoAsync(new Uri(record.Service, $"chart/launch?iss={Uri.EscapeDataString(record.Iss)}&launch=opened").AbsoluteUri);
        await page.GotoAsync($"{page.Url}/as/allow?patient={patient}&report={report}");
        await page.Locator(".task").First.WaitForAsync();

        await ShouldShowWhatTheServerHasAsync(page, patient);
        (await page.Locator("tr.opened").CountAsync()).ShouldBe(18);
        (await page.Locator(".who").InnerTextAsync()).ShouldContain("Ashdenne");
        await ShouldOpenReportsOfThisChartOnlyAsync(page, report);
        // The token is nowhere that a script of the page could read it.
        (await page.EvaluateAsync<string>("() => document.cookie + JSON.stringify(sessionStorage) + JSON.stringify(localStorage)")).ShouldBe("{}{}");
        (await context.CookiesAsync()).Where(c => c.Name.StartsWith("hfb-chart", StringComparison.Ordinal)).ShouldAllBe(c => c.HttpOnly);
    }

    // Without "launch" the page asks for the patient itself (SMART App Launch 2.2, standalone launch: scope launch/patient).
    [Fact]
    public async Task Launch_Standalone_AsksForAPatientAndShowsTheCourse()
    {
        using var user = new UserAgent();
        var patient = await record.PatientAsync("HHC-004538");

        var asked = (await user.GoAsync(new(record.Service, $"chart/launch?iss={Uri.EscapeDataString(record.Iss)}"), at => at.AbsolutePath == "/auth")).At;
        asked.Query.ShouldContain("scope=launch%2Fpatient%20");
        asked.Query.ShouldNotContain("launch=");
        var page = await user.GoAsync(new($"{(await user.GoAsync(asked)).At}/as/allow?patient={patient}"));
        var course = await user.CourseAsync(record);

        page.At.AbsolutePath.ShouldBe("/chart/");
        course.Status.ShouldBe(System.Net.HttpStatusCode.OK);
        course.Body["course"]!["sessions"]!.AsArray().Count.ShouldBe(3);
    }

    [Fact]
    public async Task Page_OfAPatientWithStoppedAndDeclinedTrials_IsAccessibleByKeyboardAndAtEveryWidth()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var page = await context.NewPageAsync();
        await OpenAsync(page, "https://alder-street-therapy.example/id/patient", await PellwickAsync());
        await page.Locator(".task").First.WaitForAsync();
        await page.EvaluateAsync("() => document.querySelectorAll('details').forEach((part) => part.setAttribute('open', ''))");

        await page.Locator(".visit[tabindex='0']").First.FocusAsync();
        var first = await page.Locator("[data-inspect='0'] p").InnerTextAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        (await page.Locator("[data-inspect='0'] p").InnerTextAsync()).ShouldNotBe(first);
        await page.Keyboard.PressAsync("Home");
        (await page.Locator("[data-inspect='0'] p").InnerTextAsync()).ShouldBe(first);
        (await page.Locator(".visit:focus").GetAttributeAsync("aria-label")).ShouldBe(first);
        (await page.Locator("tbody").AllInnerTextsAsync()).ShouldContain(text => text.Contains("stopped at the cap", StringComparison.Ordinal));

        var inspection = new Inspection(page);
        await inspection.LookAsync("course");
        inspection.Found.ShouldBeEmpty();
        await Album.TakePrintAsync(page, "course", 690);
    }

    [Fact]
    public async Task Save_CsvAndPicture_AreFilesOfTheSameValues()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var page = await context.NewPageAsync();
        await OpenAsync(page, "https://harbour-hand-clinic.example/id/patient", "HHC-004538");

        var csv = await DownloadAsync(page, "csv");
        var picture = await DownloadAsync(page, "png-0");

        System.Text.Encoding.UTF8.GetString(csv).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length.ShouldBe(1 + (18 * 3));
        // PNG signature and width (ISO/IEC 15948, 5.2 and 11.2.2).
        picture[..8].ShouldBe([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
        ((picture[18] << 8) + picture[19]).ShouldBe(380 * 3);
    }

    [Fact]
    public async Task Page_WithARefusedKey_AsksForAnotherAndThenShows()
    {
        await using var context = await browser.NewContextAsync(390, 844);
        var page = await context.NewPageAsync();
        await context.AddInitScriptAsync("sessionStorage.getItem('chart.key') ?? sessionStorage.setItem('chart.key', 'hfb.desk.wrong')");
        await OpenAsync(page, "https://harbour-hand-clinic.example/id/patient", "HHC-004538");
        (await page.Locator(".notice.danger").InnerTextAsync()).ShouldContain("refused");

        await page.Locator("[data-key=key]").FillAsync(record.Key);
        await page.Locator("[data-key=sign-in]").ClickAsync();

        await page.Locator(".task").First.WaitForAsync();
        await OpenAsync(page, "https://harbour-hand-clinic.example/id/patient", "nobody");
        await page.Locator(".notice.danger", new() { HasText = "No patient in the record carries this identifier" }).WaitForAsync();
        var inspection = new Inspection(page);
        await inspection.LookAsync("course not found");
        inspection.Found.ShouldBeEmpty();
    }

    private async Task OpenAsync(IPage page, string system, string value) => await page.GotoAsync(
        new Uri(record.Service, $"chart/#system={Uri.EscapeDataString(system)}&value={value}").AbsoluteUri);

    private async Task<string> PellwickAsync() =>
        (string)(await record.GetAsync("Patient?family=Pellwick"))["entry"]![0]!["resource"]!["identifier"]![0]!["value"]!;

    private async Task ShouldShowWhatTheServerHasAsync(IPage page, string patient)
    {
        var rows = (await page.EvaluateAsync<JsonElement>("""
            () => [...document.querySelectorAll('tbody tr')].map((row) => [row.querySelector('small').textContent, row.children[2].textContent])
            """)).EnumerateArray().ToDictionary(r => r[0].GetString()!, r => r[1].GetString()!);
        var held = (await record.GetAsync($"Observation?patient={patient}&_count=1000"))["entry"]!.AsArray().Select(e => e!["resource"]!)
            .Where(o => (string)o["identifier"]![0]!["system"]! is var system && (system.EndsWith("/trial", StringComparison.Ordinal) || system.EndsWith("/total", StringComparison.Ordinal)))
            .ToDictionary(o => $"Observation/{o["id"]}", o => o["valueQuantity"]?["value"]?.ToJsonString());
        rows.Keys.Order(StringComparer.Ordinal).ShouldBe(held.Keys.Order(StringComparer.Ordinal));
        foreach (var (observation, shown) in rows)
        {
            shown.ShouldStartWith(held[observation] is { } seconds ? $"{seconds} s" : "no time", customMessage: observation);
        }
    }

    private static async Task<byte[]> DownloadAsync(IPage page, string key)
    {
        var download = await page.RunAndWaitForDownloadAsync(() => page.Locator($"[data-key={key}]").First.ClickAsync());
        return await File.ReadAllBytesAsync(await download.PathAsync());
    }
}
