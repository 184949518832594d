using System.Diagnostics;
using System.Text.Json;
using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests;

/// <summary>Nothing is lost by a reload, a killed tab or browser, a dead network or a second tab, and nothing stays readable on a cleared device.</summary>
public sealed class NeverLostTests(Browser browser, Clinic clinic)
{
    private const string Patient = "Tarrowby";

    [Fact]
    public async Task Reload_BetweenTrials_ResumesAtTheSameTrial()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        await therapist.TypeTrialAsync("left", "12.40");
        await therapist.Page.Locator(".trial.ready.right").WaitForAsync();

        await therapist.Page.ReloadAsync();

        await therapist.Page.Locator(".trial.ready.right").WaitForAsync();
        (await therapist.Heading.InnerTextAsync()).ShouldStartWith("Writing");
        (await therapist.KeptAsync())[0].GetProperty("trials")[0].GetProperty("seconds").GetString().ShouldBe("12.40");
    }

    [Fact]
    public async Task KilledTab_WhileATrialRuns_ResumesItAndAsksAboutTheTime()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        await therapist.TouchAsync(TimeSpan.FromSeconds(3));
        await therapist.Page.Locator("#top .chip.saved").WaitForAsync();

        await CrashAsync(therapist.Page);
        var again = new Therapist(await context.NewPageAsync(), clinic);
        await again.OpenAsync();
        await again.Page.Locator(".card .button.primary").ClickAsync();
        await again.Page.Locator(".trial.running").WaitForAsync();
        await again.TouchAsync();

        await again.Page.Locator(".doubt").WaitForAsync();
        (await again.Page.Locator(".doubt").InnerTextAsync()).ShouldContain("started again");
        double.Parse(await again.TimeTakenAsync(), System.Globalization.CultureInfo.InvariantCulture).ShouldBeGreaterThan(3);
    }

    [Fact]
    public async Task KilledBrowser_AfterTrials_KeepsEveryTrialOnTheDisk()
    {
        var profile = Directory.CreateTempSubdirectory("hfb-profile-").FullName;
        try
        {
            var context = await browser.LaunchProfileAsync(profile);
            var therapist = new Therapist(context.Pages[0], clinic);
            await therapist.BeginAsync();
            await therapist.TypeTrialAsync("left", "31.90");
            await therapist.TypeTrialAsync("right", "24.27");
            await therapist.Page.Locator(".trial.ready.left").WaitForAsync();
            await therapist.Page.Locator("#top .chip.saved").WaitForAsync();
            KillBrowserOf(profile);

            await using var after = await browser.LaunchProfileAsync(profile);
            var again = new Therapist(after.Pages[0], clinic);
            await again.OpenAsync();
            await again.Page.Locator(".card .button.primary").ClickAsync();

            await again.Page.Locator(".trial.ready.left").WaitForAsync();
            (await again.Heading.InnerTextAsync()).ShouldStartWith("Card turning");
            var seconds = (await again.KeptAsync())[0].GetProperty("trials").EnumerateArray().Select(t => t.GetProperty("seconds").GetString());
            seconds.ShouldBe(["31.90", "24.27"]);
        }
        finally
        {
            Directory.Delete(profile, recursive: true);
        }
    }

    [Fact]
    public async Task SecondTab_SameSession_IsRefusedUntilTheFirstIsClosed()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var first = new Therapist(await context.NewPageAsync(), clinic);
        await first.BeginAsync();
        var address = first.Page.Url;

        var second = new Therapist(await context.NewPageAsync(), clinic);
        await second.Page.GotoAsync(address);
        await second.ReadyAsync();

        (await second.Heading.InnerTextAsync()).ShouldBe("Open elsewhere");
        var inspection = new Inspection(second.Page);
        await inspection.LookAsync("open elsewhere");
        inspection.Found.ShouldBeEmpty();
        await first.Page.CloseAsync();
        await second.Page.ReloadAsync();
        await second.Page.Locator(".trial.ready.left").WaitForAsync();
    }

    [Fact]
    public async Task NoNetwork_AfterOneLoad_StartsResumesAndCountsUnsentSessions()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.BeginAsync();
        await therapist.Page.EvaluateAsync("() => navigator.serviceWorker.ready");
        await therapist.Page.ReloadAsync();
        await therapist.ReadyAsync();
        await clinic.StopAsync();
        try
        {
            await therapist.Page.ReloadAsync();
            await therapist.ReadyAsync();
            await therapist.Page.Locator(".trial.ready.left").WaitForAsync();
            await therapist.TypeTrialAsync("left", "20.05");
            await therapist.OpenAsync();

            (await therapist.Page.Locator(".chip.here").InnerTextAsync()).ShouldStartWith("1 unsent, oldest");
            // A new session can begin too; who the patient is, the patient says.
            await therapist.NewSessionAsync();
            await therapist.Key("family-name").FillAsync("Ashdenne");
            (await therapist.Page.Locator(".notice.warn").InnerTextAsync()).ShouldContain("cannot be reached");
            (await therapist.Page.Locator(".chip.here").InnerTextAsync()).ShouldStartWith("2 unsent");
        }
        finally
        {
            await clinic.StartAsync();
        }
    }

    [Fact]
    public async Task ClearDevice_WithUnsentSession_AsksThenLeavesNoPatientData()
    {
        var profile = Directory.CreateTempSubdirectory("hfb-profile-").FullName;
        try
        {
            await using (var context = await browser.LaunchProfileAsync(profile))
            {
                var therapist = new Therapist(context.Pages[0], clinic);
                await therapist.BeginAsync();
                await therapist.TypeTrialAsync("left", "20.05");
                await therapist.OpenAsync("#/clear");
                (await therapist.Page.Locator(".notice.danger").InnerTextAsync()).ShouldContain("Send it first");
                await therapist.Key("clear").ClickAsync();
                await therapist.Page.Locator("dialog .danger").ClickAsync();
                await therapist.Page.Locator("[data-key=new]").WaitForAsync();

                var left = await therapist.Page.EvaluateAsync<string>(Therapist.EverythingKept);
                left.ShouldNotContain(Patient);
                left.ShouldNotContain("HHC-004417");
                left.ShouldNotContain("1988-04-12");
                (await therapist.KeptAsync()).GetArrayLength().ShouldBe(0);
                (await therapist.Page.Locator(".chip.here").CountAsync()).ShouldBe(0);
            }

            // Enciphered from the first tap on: the name was never on the disk in readable form either.
            foreach (var file in Directory.EnumerateFiles(Path.Combine(profile, "Default", "IndexedDB"), "*", SearchOption.AllDirectories))
            {
                var text = System.Text.Encoding.Latin1.GetString(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken));
                text.ShouldNotContain(Patient);
                text.Replace("\0", "", StringComparison.Ordinal).ShouldNotContain(Patient);
            }
        }
        finally
        {
            Directory.Delete(profile, recursive: true);
        }
    }

    private static async Task CrashAsync(IPage page)
    {
        var gone = new TaskCompletionSource();
        page.Crash += (_, _) => gone.TrySetResult();
        var devtools = await page.Context.NewCDPSessionAsync(page);
        _ = devtools.SendAsync("Page.crash").ContinueWith(_ => { }, TaskScheduler.Default);
        await gone.Task.WaitAsync(TimeSpan.FromSeconds(15));
    }

    // kill -9, as an empty battery does it; only the browser whose profile this is.
    private static void KillBrowserOf(string profile)
    {
        foreach (var process in Process.GetProcessesByName("chromium"))
        {
            var commandLine = File.ReadAllText($"/proc/{process.Id}/cmdline");
            if (commandLine.Contains(profile, StringComparison.Ordinal) && !commandLine.Contains("--type=", StringComparison.Ordinal))
            {
                process.Kill(entireProcessTree: true);
                process.WaitForExit();
            }
        }
    }
}
