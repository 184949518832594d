using System.Net;
using System.Text.Json.Nodes;
using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests.Reports;

/// <summary>The page of one report in a browser.</summary>
public sealed class ReportPageTests(Browser browser) : IAsyncLifetime
{
    private readonly Clinic clinic = new();

    public async ValueTask InitializeAsync() => await clinic.InitializeAsync();

    public async ValueTask DisposeAsync() => await clinic.DisposeAsync();

    [Fact]
    public async Task Page_AtEveryWidth_MeetsWcagAndRunsNothing()
    {
        var file = Path.Combine(AppContext.BaseDirectory, "examples", "sessions", "alder-street-therapy", "pellwick-visit-1.json");
        var document = JsonNode.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken))!;
        (await clinic.SubmitAsync(document.ToJsonString())).ShouldBe(HttpStatusCode.Accepted);
        var key = $"{document["site"]}/{document["sessionId"]}";
        while ((await clinic.GetAsync($"sessions/{key}")).GetProperty("state").GetString() != "delivered")
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }

        await using var context = await browser.NewContextAsync(1280, 800);
        var page = await context.NewPageAsync();
        var complaints = new List<string>();
        page.Console += (_, message) => complaints.Add(message.Text);
        await page.GotoAsync(new Uri(clinic.Page, $"../report/{key}").ToString());
        // The stylesheet is in force: the policy of the page lets it in, and nothing else was refused.
        (await page.EvaluateAsync<string>("() => getComputedStyle(document.querySelector('h1')).marginTop")).ShouldBe("0px");
        complaints.ShouldBeEmpty();
        var inspection = new Inspection(page);
        await inspection.LookAsync("report");
        await Album.TakePrintAsync(page, "report", 680);

        inspection.Found.ShouldBeEmpty();
    }
}
