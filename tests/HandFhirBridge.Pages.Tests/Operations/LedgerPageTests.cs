using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Operations;

/// <summary>The page for whoever looks after the ledger.</summary>
public sealed class LedgerPageTests(Browser browser) : IAsyncLifetime
{
    private readonly Clinic clinic = new();

    public async ValueTask InitializeAsync() => await clinic.InitializeAsync();

    public async ValueTask DisposeAsync() => await clinic.DisposeAsync();

    [Fact]
    public async Task Page_EveryState_MeetsWcagAtEveryWidthAndNamesNobody()
    {
        await using var context = await browser.NewContextAsync(1280, 800);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        var inspection = new Inspection(desk.Page);
        await desk.OpenAsync();
        await desk.Page.Locator(".notice.good").WaitForAsync();
        await inspection.LookAsync("ledger empty");
        await desk.HeldAsync("visit-81c2");
        await desk.HeldAsync("visit-81c3");
        await desk.OpenAsync();
        await desk.Page.Locator(".group.held").WaitForAsync();
        await inspection.LookAsync("ledger list");
        await desk.Page.Locator("summary").ClickAsync();
        await inspection.LookAsync("ledger filter");
        await desk.Key("retry-held-HFB4109").ClickAsync();
        await inspection.LookAsync("ledger retry all asked");
        await desk.Key("cancel").ClickAsync();
        await desk.Key("entry-harbour-hand-clinic/visit-81c2/1").ClickAsync();
        await desk.Page.Locator(".attempts li").WaitForAsync();
        await inspection.LookAsync("ledger entry");
        await desk.ShouldNameNobodyAsync();
        await desk.Key("act-resolve").ClickAsync();
        await desk.Key("decide").ClickAsync();
        await inspection.LookAsync("ledger chart asked with what is missing");
        await desk.Key("cancel").ClickAsync();
        await desk.OpenAsync("#/entry/harbour-hand-clinic/nobody");
        await inspection.LookAsync("ledger entry not there");

        inspection.Found.ShouldBeEmpty();
    }

    [Fact]
    public async Task Group_RetriedTogether_AllAreTriedAgainAndEachKeepsTheReason()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-1");
        await desk.HeldAsync("visit-2");
        await desk.OpenAsync();
        await desk.Page.Locator(".group.held", new() { HasText = "2 sessions" }).WaitForAsync();

        await desk.Key("retry-held-HFB4109").ClickAsync();
        await desk.Key("decide").ClickAsync();
        (await desk.Page.Locator("dialog .problem").InnerTextAsync()).ShouldBe("Reason and name are needed.");
        await desk.Key("decide-over").SelectOptionAsync("8h");
        await desk.SayAsync($"{Desk.StrangeName} was registered.");
        await desk.Key("decide").ClickAsync();

        await desk.Page.Locator(".group.accepted, .group.held", new() { HasText = "1 session" }).First.WaitForAsync();
        await desk.OpenAsync("#/entry/harbour-hand-clinic/visit-2");
        var decision = desk.Page.Locator(".decisions li");
        (await decision.InnerTextAsync()).ShouldContain("R. Okafor");
        (await decision.Locator(".said").InnerTextAsync()).ShouldBe("[patient] was registered.");
        await desk.ShouldNameNobodyAsync();
    }

    [Fact]
    public async Task Entry_HeldWhileItWaits_IsNotSentUntilItIsRetried()
    {
        await using var context = await browser.NewContextAsync(390, 844);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-5");
        await desk.HeldAsync("visit-6");
        await desk.OpenAsync();
        await desk.Key("retry-held-HFB4109").ClickAsync();
        await desk.Key("decide-over").SelectOptionAsync("8h");
        await desk.SayAsync("Chart corrected.");
        await desk.Key("decide").ClickAsync();
        // The first falls due at once, the second hours later.
        await desk.StateAsync("visit-6", "accepted");
        await desk.OpenAsync("#/entry/harbour-hand-clinic/visit-6");

        await desk.Key("act-hold").ClickAsync();
        await desk.SayAsync("The clinic asks again whose it is.");
        await desk.Key("decide").ClickAsync();

        await desk.Page.Locator(".code", new() { HasText = "HFB5011" }).First.WaitForAsync();
        (await desk.Key("act-hold").CountAsync()).ShouldBe(0);
        (await desk.Page.Locator(".decisions li").First.InnerTextAsync()).ShouldContain("The clinic asks again whose it is.");
        await desk.Key("act-retry").ClickAsync();
        await desk.SayAsync("Settled.");
        await desk.Key("decide").ClickAsync();
        // Tried again, and the chart still has another name.
        await desk.Page.Locator(".attempts li").Nth(1).WaitForAsync();
        await desk.StateAsync("visit-6", "held");
    }

    [Fact]
    public async Task Entry_HeldByAPersonThenResolved_GoesToTheChosenChartWithoutAReload()
    {
        await using var context = await browser.NewContextAsync(390, 844);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-3");
        var chart = System.Text.Json.JsonDocument.Parse(await clinic.RecordAsync("Patient?identifier=HHC-004417"))
            .RootElement.GetProperty("entry")[0].GetProperty("resource").GetProperty("id").GetString()!;
        await desk.OpenAsync("#/entry/harbour-hand-clinic/visit-3");

        await desk.Key("act-resolve").ClickAsync();
        await desk.Key("decide-chart").FillAsync(chart);
        await desk.SayAsync("Wristband seen; married last week.");
        await desk.Key("decide").ClickAsync();

        await desk.StateAsync("visit-3", "delivered");
        // The page asks again by itself.
        await desk.Page.Locator(".state.delivered").First.WaitForAsync();
        (await desk.Page.Locator(".attempts li").CountAsync()).ShouldBe(2);
        await desk.Key("act-withdraw").WaitForAsync();
    }

    [Fact]
    public async Task Entry_ChangedByAnotherMeanwhile_RefusesWithASentence()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-4");
        await desk.OpenAsync("#/entry/harbour-hand-clinic/visit-4");
        await desk.Key("act-withdraw").ClickAsync();
        await desk.SayAsync("Entered twice.");
        await desk.Key("decide").ClickAsync();
        await desk.Page.Locator(".notice", new() { HasText = "withdraws the session" }).WaitForAsync();

        await desk.OpenAsync("#/entry/harbour-hand-clinic/visit-4?revision=1");

        await desk.Page.Locator(".notice", new() { HasText = "A later revision" }).WaitForAsync();
        (await desk.Key("act-retry").CountAsync()).ShouldBe(0);
    }

    [Fact]
    public async Task Page_ByKeyboardAlone_FindsAndHoldsASession()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-5");
        await desk.OpenAsync();
        await desk.Page.Locator(".group.held").WaitForAsync();

        await TabToAsync(desk, "entry-harbour-hand-clinic/visit-5/1");
        await desk.Page.Keyboard.PressAsync("Enter");
        await desk.Key("act-retry").WaitForAsync();
        await TabToAsync(desk, "act-retry");
        await desk.Page.Keyboard.PressAsync("Enter");
        await TabToAsync(desk, "decide-reason");
        await desk.Page.Keyboard.TypeAsync("By keyboard.");
        await TabToAsync(desk, "decide-by");
        await desk.Page.Keyboard.TypeAsync("R. Okafor");
        await desk.Page.Keyboard.PressAsync("Enter");

        await desk.Page.Locator(".decisions li", new() { HasText = "By keyboard." }).WaitForAsync();
    }

    [Fact]
    public async Task Page_InAClinic_AsksForAKeyAndLetsAReaderOnlyLook()
    {
        await using var locked = new Clinic { SignInNeeded = true };
        await locked.InitializeAsync();
        await using var context = await browser.NewContextAsync(390, 844);
        var desk = new Desk(await context.NewPageAsync(), locked);
        var inspection = new Inspection(desk.Page);
        await desk.OpenAsync();
        await desk.Key("key").FillAsync("hfb.nobody.0");
        await desk.Key("sign-in").ClickAsync();
        await desk.Page.Locator(".notice.danger").WaitForAsync();
        await inspection.LookAsync("ledger sign in");

        await desk.Key("key").FillAsync(locked.NewKey("reader"));
        await desk.Key("sign-in").ClickAsync();
        await desk.Page.Locator(".notice.good").WaitForAsync();
        await desk.Page.Locator("summary").ClickAsync();
        await desk.Key("retry-matching").ClickAsync();
        await desk.SayAsync("May I?");
        await desk.Key("decide").ClickAsync();
        await desk.Page.Locator("dialog .problem", new() { HasText = "scope operate" }).WaitForAsync();
        await desk.Key("cancel").ClickAsync();
        await desk.Key("sign-out").ClickAsync();

        await desk.Key("sign-in").WaitForAsync();
        (await desk.Page.EvaluateAsync<string>("() => JSON.stringify([{ ...sessionStorage }, { ...localStorage }])")).ShouldNotContain("hfb.");
        inspection.Found.ShouldBeEmpty();
    }

    [Fact]
    public async Task Page_ServiceGone_SaysSoAndKeepsWhatItShows()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        await desk.HeldAsync("visit-6");
        await desk.OpenAsync();
        await desk.Page.Locator(".group.held").WaitForAsync();

        await clinic.StopAsync();
        await desk.Page.Locator(".chip.offline").WaitForAsync();
        (await desk.Page.Locator(".group.held").CountAsync()).ShouldBe(1);
        await clinic.StartAsync();

        await desk.Page.Locator(".chip.offline").WaitForAsync(new() { State = WaitForSelectorState.Detached });
    }

    [Fact]
    public async Task Page_Loaded_AsksNobodyElseAndBreaksNoPolicy()
    {
        await using var context = await browser.NewContextAsync(1280, 800);
        var desk = new Desk(await context.NewPageAsync(), clinic);
        var asked = new List<string>();
        var complaints = new List<string>();
        desk.Page.Request += (_, request) => asked.Add(new Uri(request.Url).GetLeftPart(UriPartial.Authority));
        desk.Page.Console += (_, message) => complaints.Add(message.Text);
        desk.Page.PageError += (_, error) => complaints.Add(error);

        var answer = await desk.Page.GotoAsync(desk.Address.ToString());
        await desk.Page.Locator(".figures").WaitForAsync();

        asked.Distinct().ShouldBe([desk.Address.GetLeftPart(UriPartial.Authority)]);
        complaints.ShouldBeEmpty();
        (await answer!.HeaderValueAsync("content-security-policy")).ShouldNotBeNull().ShouldStartWith("default-src 'none'; script-src 'self'");
    }

    private static async Task TabToAsync(Desk desk, string key)
    {
        for (var presses = 0; presses < 80; presses++)
        {
            if (await desk.Page.EvaluateAsync<string?>("() => document.activeElement?.dataset?.key ?? null") == key)
            {
                return;
            }

            await desk.Page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"{key} is not reached by the Tab key.");
    }
}
