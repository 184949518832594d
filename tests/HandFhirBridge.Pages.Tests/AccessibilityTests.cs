using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests;

/// <summary>WCAG 2.2 AA as far as a machine can tell (axe-core), target sizes, reflow, and a session by keyboard alone.</summary>
public sealed class AccessibilityTests(Browser browser, Clinic clinic)
{
    [Fact]
    public async Task EveryState_AxeTargetsAndReflow_FindNothing()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        var inspection = new Inspection(therapist.Page);

        await BeforeAsync(therapist, inspection.LookAsync);
        await TrialsAsync(therapist, inspection.LookAsync);
        await AfterAsync(therapist, inspection.LookAsync);

        inspection.Found.ShouldBeEmpty();
    }

    [Fact]
    public async Task ReducedMotion_RunningTrial_ShowsWholeSecondsAndNoTransition()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var page = await context.NewPageAsync();
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        var therapist = new Therapist(page, clinic);
        await therapist.BeginAsync();

        await therapist.TouchAsync();

        (await page.Locator(".elapsed").InnerTextAsync()).ShouldNotContain(".");
        (await page.Locator(".run").EvaluateAsync<string>("(e) => getComputedStyle(e).transitionDuration")).ShouldBe("0s");
    }

    [Fact]
    public async Task StatusMessages_StartStopAndSaved_AreAnnouncedAndTicksAreNot()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        await therapist.Page.EvaluateAsync("""
            () => { globalThis.said = []; new MutationObserver(() => { const text = document.getElementById('said').textContent; if (text) said.push(text); })
              .observe(document.getElementById('said'), { childList: true, characterData: true, subtree: true }); }
            """);

        await therapist.TouchAsync(TimeSpan.FromSeconds(1));
        await therapist.UntilAsync("said.length === 1 && Number(document.querySelector('.elapsed').textContent) > 1.6");
        await therapist.TouchAsync();
        await therapist.UntilAsync("said.length === 2");
        await therapist.Key("keep").ClickAsync();
        await therapist.UntilAsync("said.length === 3");

        var said = await therapist.Page.EvaluateAsync<string[]>("() => said");
        said[0].ShouldBe("Started.");
        said[1].ShouldStartWith("Stopped.");
        said[2].ShouldStartWith("Saved:");
        said[2].ShouldContain("right hand");
    }

    // The last one is ruled out for the right hand.
    private static readonly (string Task, string Left, string? Right)[] Typed =
    [
        ("card-turning", "5.31", "4.02"), ("small-common-objects", "7.25", "6.10"), ("simulated-feeding", "9.88", "6.74"),
        ("stacking-checkers", "4.40", "3.61"), ("large-light-objects", "3.87", "3.15"), ("large-heavy-objects", "4.10", null),
    ];

    private static async Task BeforeAsync(Therapist therapist, Func<string, Task> look)
    {
        await therapist.OpenAsync();
        await look("home");
        await therapist.OpenAsync("#/device");
        await look("device");
        await therapist.SetUpDeviceAsync();
        await therapist.NewSessionAsync("HHC-999999");
        await therapist.Key("family-name").WaitForAsync();
        await look("patient not in the record");
        await therapist.Key("number").FillAsync("HHC-004417");
        await therapist.Key("look-up").ClickAsync();
        await therapist.Key("agree").WaitForAsync();
        await look("patient");
        await therapist.Key("agree").ClickAsync();
        await therapist.Key("next").ClickAsync();
        await look("performer");
        await therapist.FillPerformerAsync();
        await therapist.Key("next").ClickAsync();
        await therapist.ChooseAsync("handedness-ambidextrous");
        await look("dominance");
        await therapist.Key("inventory").ClickAsync();
        await therapist.ChooseAsync("item-writing-always-right");
        await look("inventory");
        await therapist.Key("next").ClickAsync();
        await therapist.ChooseAsync("handedness-right");
        await therapist.ChooseAsync("how-known-stated");
        await therapist.Key("next").ClickAsync();
        await PrecautionsAsync(therapist, look);
        await therapist.Key("next").ClickAsync();
        await look("setup with what is missing");
        await therapist.Key("measures").ClickAsync();
        await therapist.Key("add-replaced").ClickAsync();
        await look("setup measures");
        await therapist.Key("remove-0").ClickAsync();
        await therapist.ChooseAsync("sex-female");
        await therapist.ChooseAsync("glasses-worn");
        await therapist.ChooseAsync("template-false");
        await therapist.ChooseAsync("cap-in-force-true");
        await therapist.Key("cap-seconds").FillAsync("20");
        await therapist.Key("next").ClickAsync();
    }

    private static async Task PrecautionsAsync(Therapist therapist, Func<string, Task> look)
    {
        foreach (var precaution in Therapist.Precautions)
        {
            if (precaution == "lifting-restriction")
            {
                await therapist.ChooseAsync($"answer-{precaution}-yes");
                await therapist.ChooseAsync($"out-{precaution}-large-heavy-objects");
                await therapist.ChooseAsync($"hands-{precaution}-right");
                await look("precaution answered yes");
            }
            else
            {
                await therapist.ChooseAsync($"answer-{precaution}-no");
            }

            await therapist.Key("next").ClickAsync();
        }
    }

    private static async Task TrialsAsync(Therapist therapist, Func<string, Task> look)
    {
        var page = therapist.Page;
        await page.Locator(".trial.ready.left").WaitForAsync();
        await look("ready left");
        await therapist.TouchAsync(TimeSpan.FromSeconds(0.5));
        await page.Locator(".trial.running").WaitForAsync();
        await look("running");
        await therapist.Key("undo").ClickAsync();
        await page.Locator(".trial.ready.left").WaitForAsync();
        await therapist.TouchAsync(TimeSpan.FromSeconds(19.5));
        await page.Locator(".notice.cap").WaitForAsync();
        await look("cap reached");
        await therapist.TouchAsync();
        await page.Locator(".trial.ended").WaitForAsync();
        await look("stopped at the cap");
        await therapist.Key("keep").ClickAsync();
        await page.Locator(".trial.ready.right").WaitForAsync();
        await look("ready right");
        await therapist.TouchAsync(TimeSpan.FromSeconds(12.4));
        await page.Locator(".trial.running").WaitForAsync();
        await therapist.TouchAsync();
        await page.Locator(".trial.ended").WaitForAsync();
        await look("stopped");
        await therapist.Key("undo").ClickAsync();
        await page.Locator(".trial.running").WaitForAsync();
        await therapist.HideAsync(true);
        await therapist.HideAsync(false);
        await therapist.TouchAsync();
        await page.Locator(".doubt").WaitForAsync();
        await look("doubtful");
        await therapist.Key("doubt-type").ClickAsync();
        await therapist.ChooseAsync("outcome-void");
        await look("void");
        await therapist.Key("reason-interrupted").ClickAsync();
        await therapist.Key("keep").ClickAsync();
        await page.Locator(".trial.ready.right").WaitForAsync();
        await therapist.Key("type-time").ClickAsync();
        await therapist.Key("typed").FillAsync("x");
        await therapist.Key("keep").ClickAsync();
        await look("typed time with a problem");
        await therapist.Key("typed").FillAsync("11.20");
        await therapist.Key("keep").ClickAsync();
        await page.Locator(".trial.ready.left").WaitForAsync();
        await therapist.Key("overview").ClickAsync();
        await look("overview");
        await therapist.Key("resume").ClickAsync();
        foreach (var (task, left, right) in Typed)
        {
            await page.Locator(".trial.ready.left").WaitForAsync();
            await look($"ready {task} left");
            await therapist.TypeTrialAsync("left", left);
            if (right is not null)
            {
                await page.Locator(".trial.ready.right").WaitForAsync();
                await look($"ready {task} right");
                await therapist.TypeTrialAsync("right", right);
            }
        }

        await page.Locator(".trial.ready.right").WaitForAsync();
        await look("ruled out");
        await therapist.Key("give-anyway").ClickAsync();
        await look("asked before giving what was ruled out");
        await page.Locator("dialog .plain").ClickAsync();
        await therapist.Key("leave-out").ClickAsync();
        await look("left out");
        await therapist.Key("keep").ClickAsync();
    }

    private async Task AfterAsync(Therapist therapist, Func<string, Task> look)
    {
        var page = therapist.Page;
        await page.Locator(".norm-sources").WaitForAsync();
        await look("review");
        await therapist.Key("correct-card-turning-left").ClickAsync();
        await look("correct");
        await therapist.Key("typed").FillAsync("15.31");
        await therapist.Key("save").ClickAsync();
        await page.Locator(".norm-sources").WaitForAsync();
        await look("review with a correction");
        await clinic.StopAsync();
        try
        {
            await therapist.Key("send").ClickAsync();
            await look("asked before sending");
            await page.Locator("dialog .primary").ClickAsync();
            await page.Locator(".way").WaitForAsync();
            await look("waiting to be sent");
            await therapist.Page.GotoAsync(clinic.Page + "#/");
            await look("home with an unsent session");
            await therapist.Page.GotoAsync(clinic.Page + "#/clear");
            await look("clear with an unsent session");
        }
        finally
        {
            await clinic.StartAsync();
        }

        await therapist.Page.GoBackAsync();
        await therapist.Page.GoBackAsync();
        await therapist.WaitForStateAsync("In the record");
        await look("in the record");
        foreach (var screen in new[] { "sheet", "cards" })
        {
            await therapist.Page.GotoAsync(clinic.Page + $"#/{screen}");
            await look(screen);
        }

        await therapist.Page.GotoAsync(clinic.Page + "#/");
        await therapist.Key("paper").ClickAsync();
        await therapist.ChooseAsync("handedness-left");
        await therapist.Key("outcome-writing-left").SelectOptionAsync("not-given");
        await therapist.Key("review").ClickAsync();
        await look("paper sheet with what is missing");
    }
}
