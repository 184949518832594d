using System.Net;
using System.Text.Json.Nodes;
using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Operations;

/// <summary>Somebody at the ledger page, and sessions that wait for them.</summary>
internal sealed class Desk(IPage page, Clinic clinic)
{
    /// <summary>A family name that no chart has; it must never be seen on the page.</summary>
    public const string StrangeName = "Marrowick";

    /// <summary>What is known of the patient and must never be seen on the page.</summary>
    public static readonly string[] Secrets = [StrangeName, "Tarrowby", "HHC-004417", "1988-04"];

    public IPage Page => page;

    public Uri Address => new(clinic.Page, "../ledger/");

    public ILocator Key(string key) => page.Locator($"[data-key=\"{key}\"]");

    public async Task OpenAsync(string hash = "")
    {
        await page.GotoAsync(Address + hash);
        await page.WaitForFunctionAsync("() => performance.getEntriesByName('ledger-ready').length > 0");
    }

    /// <summary>Hands in a session that is held, as the chart carries another family name.</summary>
    public async Task HeldAsync(string id)
    {
        var file = Path.Combine(AppContext.BaseDirectory, "examples", "sessions", "harbour-hand-clinic", "tarrowby-visit-1.json");
        var document = JsonNode.Parse(await File.ReadAllTextAsync(file))!;
        document["sessionId"] = id;
        document["patient"]!["familyName"] = StrangeName;
        (await clinic.SubmitAsync(document.ToJsonString())).ShouldBe(HttpStatusCode.Accepted);
        await StateAsync(id, "held");
    }

    public async Task StateAsync(string id, string state)
    {
        while ((await clinic.GetAsync($"sessions/harbour-hand-clinic/{id}")).GetProperty("state").GetString() != state)
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }

    public async Task SayAsync(string reason, string by = "R. Okafor")
    {
        await Key("decide-reason").FillAsync(reason);
        await Key("decide-by").FillAsync(by);
    }

    public async Task ShouldNameNobodyAsync()
    {
        var whole = await page.ContentAsync();
        foreach (var secret in Secrets)
        {
            whole.ShouldNotContain(secret);
        }
    }
}
