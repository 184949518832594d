using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests.Outcomes;

/// <summary>The page of group outcomes in a browser.</summary>
public sealed class OutcomesPageTests(Browser browser) : IAsyncLifetime
{
    private readonly Clinic clinic = new();

    public async ValueTask InitializeAsync() => await clinic.InitializeAsync();

    public async ValueTask DisposeAsync() => await clinic.DisposeAsync();

    [Fact]
    public async Task Page_OfGatheredSessions_ShowsTheirFiguresAndMeetsWcag()
    {
        await using var context = await browser.NewContextAsync(1280, 800);
        var page = await context.NewPageAsync();
        var complaints = new List<string>();
        page.Console += (_, message) => complaints.Add(message.Text);
        var address = new Uri(clinic.Page, "../outcomes").ToString();
        // Before anything is gathered the page says what to do.
        (await page.GotoAsync(address))!.Status.ShouldBe(404);
        (await page.Locator("[role=alert]").InnerTextAsync()).ShouldContain("HFB7101");
        complaints.Clear();

        var writing = new List<decimal>();
        foreach (var visit in new[] { "pellwick-visit-1", "pellwick-visit-3" })
        {
            var file = Path.Combine(AppContext.BaseDirectory, "examples", "sessions", "alder-street-therapy", $"{visit}.json");
            var document = JsonNode.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken))!;
            (await clinic.SubmitAsync(document.ToJsonString())).ShouldBe(HttpStatusCode.Accepted);
            writing.Add((decimal)document["trials"]!.AsArray().Single(t => (string?)t!["task"] == "writing" && (string?)t["hand"] == "right")!["seconds"]!);
            while ((await clinic.GetAsync($"sessions/{document["site"]}/{document["sessionId"]}")).GetProperty("state").GetString() != "delivered")
            {
                await Task.Delay(50, TestContext.Current.CancellationToken);
            }
        }

        await clinic.GatherAsync();
        await page.GotoAsync($"{address}?by=task&by=hand&where=task=writing");

        var row = await page.Locator("tbody tr", new() { HasText = "right" }).First.Locator("td").AllInnerTextsAsync();
        // persons, trials, completed, stopped, without a time, mean
        row.Take(6).ShouldBe(["1", "2", "2", "0", "0", writing.Average().ToString("0.00", CultureInfo.InvariantCulture)]);
        // One of two was stopped: half had finished after the other's time.
        (await page.Locator("tbody tr", new() { HasText = "left" }).First.Locator("td").AllInnerTextsAsync()).Take(5).ShouldBe(["1", "2", "1", "1", "0"]);
        complaints.ShouldBeEmpty();
        var inspection = new Inspection(page);
        await inspection.LookAsync("outcomes");
        inspection.Found.ShouldBeEmpty();

        await page.Locator("input[value='site']").CheckAsync();
        await page.Locator("button").ClickAsync();
        (await page.Locator("th[scope=col]").First.InnerTextAsync()).ShouldBe("hand");
    }
}
