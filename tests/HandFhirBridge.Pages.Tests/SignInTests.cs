using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests;

/// <summary>In a clinic the service lets in only devices with a key of their own; clearing the device signs it out.</summary>
public sealed class SignInTests(Browser browser)
{
    [Fact]
    public async Task DeviceKey_MissingThenGivenThenCleared_LetsInOnlyWhileHeld()
    {
        await using var clinic = new Clinic { SignInNeeded = true };
        await clinic.InitializeAsync();
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        var inspection = new Inspection(therapist.Page);
        await therapist.OpenAsync();
        (await therapist.Page.Locator(".notice.danger").InnerTextAsync()).ShouldContain("does not let this device in");
        (await therapist.Key("new").CountAsync()).ShouldBe(0);
        await inspection.LookAsync("not signed in");

        var key = clinic.NewKey("tablet-1");
        await therapist.OpenAsync("#/device");
        await therapist.Key("access").FillAsync(key);
        await therapist.Key("Done").ClickAsync();
        await therapist.Page.Locator("#device-problem:text-is('Clinic and both numberings are needed.')").WaitForAsync();
        await inspection.LookAsync("device with its key");
        await therapist.FillDeviceAsync();
        await therapist.NewSessionAsync();
        await therapist.Key("agree").WaitForAsync();
        await therapist.OpenAsync("#/clear");
        await therapist.Key("clear").ClickAsync();
        await therapist.Page.Locator("dialog .danger").ClickAsync();

        await therapist.Page.Locator(".notice.danger", new() { HasText = "does not let this device in" }).WaitForAsync();
        (await therapist.Page.EvaluateAsync<string>(Therapist.EverythingKept)).ShouldNotContain(key);
        inspection.Found.ShouldBeEmpty();
    }

    [Fact]
    public async Task DeviceKey_WithdrawnBeforeSending_SessionWaitsAndIsSentWithTheNext()
    {
        await using var clinic = new Clinic { SignInNeeded = true };
        await clinic.InitializeAsync();
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.OpenAsync("#/device");
        await therapist.Key("access").FillAsync(clinic.NewKey("tablet-1"));
        await therapist.Key("Done").ClickAsync();
        await therapist.FillDeviceAsync();
        await therapist.NewSessionAsync();
        await therapist.BeforeAsync();
        foreach (var _ in Enumerable.Range(0, 7))
        {
            await therapist.TypeTrialAsync("left", "11.10");
            await therapist.TypeTrialAsync("right", "10.00");
        }

        clinic.WithdrawKeys();
        await therapist.SendAsync();
        await therapist.WaitForStateAsync("Waiting to be sent");
        await therapist.Page.Locator(".chip", new() { HasText = "Not signed in" }).WaitForAsync();
        await therapist.OpenAsync("#/device");
        await therapist.Key("access").FillAsync(clinic.NewKey("tablet-2"));
        await therapist.Key("Done").ClickAsync();
        await therapist.Page.Locator(".card .button.primary").ClickAsync();

        await therapist.WaitForStateAsync("In the record");
    }
}
