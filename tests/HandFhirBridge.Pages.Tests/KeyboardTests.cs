using HandFhirBridge.Pages.Tests.Bedside;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests;

/// <summary>The whole session without pointer: Tab, arrows, Space, Enter and typing.</summary>
public sealed class KeyboardTests(Browser browser, Clinic clinic)
{
    [Fact]
    public async Task Session_ByKeyboardAlone_EndsInTheRecord()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.SetUpDeviceAsync();
        var keys = new Keys(therapist.Page);

        await BeforeAsync(therapist, keys);
        foreach (var task in Enumerable.Range(0, 7))
        {
            foreach (var hand in new[] { "left", "right" })
            {
                await therapist.Page.Locator($".trial.ready.{hand}").WaitForAsync();
                await keys.PressAsync("Space");
                await therapist.UntilAsync("Number(document.querySelector('.elapsed')?.textContent) > 0.3");
                await keys.PressAsync("Space");
                await therapist.Page.Locator(".trial.ended").WaitForAsync();
                await keys.ToAsync("keep");
                await keys.PressAsync("Enter");
            }
        }

        await keys.ToAsync("send");
        await keys.PressAsync("Enter");
        await therapist.Page.Locator("dialog").WaitForAsync();
        await keys.ToAsync("Send");
        await keys.PressAsync("Enter");

        await therapist.WaitForStateAsync("In the record");
    }

    private static async Task BeforeAsync(Therapist therapist, Keys keys)
    {
        await keys.ToAsync("new");
        await keys.PressAsync("Enter");
        await keys.ToAsync("number");
        await keys.TypeAsync("HHC-004417");
        await keys.PressAsync("Enter");
        await therapist.Key("agree").WaitForAsync();
        await keys.ToAsync("agree");
        await keys.PressAsync("Enter");
        await keys.NextAsync();
        await keys.ToAsync("performer-name");
        await keys.TypeAsync("Ines Calderwick");
        await keys.ToAsync("performer-number");
        await keys.TypeAsync("HHC-T-03");
        await keys.ToAsync("performer-role");
        await keys.TypeAsync("Occ");
        await keys.NextAsync();
        await keys.ChooseAsync("handedness-right");
        await keys.ChooseAsync("how-known-stated");
        await keys.NextAsync();
        foreach (var precaution in Therapist.Precautions)
        {
            await keys.ChooseAsync($"answer-{precaution}-no");
            await keys.NextAsync();
        }

        foreach (var answer in new[] { "sex-female", "glasses-not-needed", "template-false", "cap-in-force-false" })
        {
            await keys.ChooseAsync(answer);
        }

        await keys.NextAsync();
    }

    /// <summary>Only what a keyboard can do.</summary>
    private sealed class Keys(IPage page)
    {
        public Task PressAsync(string key) => page.Keyboard.PressAsync(key);

        public Task TypeAsync(string text) => page.Keyboard.TypeAsync(text);

        public async Task NextAsync()
        {
            await ToAsync("next");
            await PressAsync("Enter");
        }

        /// <summary>Tabs until the control has the focus; a group of radio buttons is one stop, its members are reached by arrows.</summary>
        public async Task ToAsync(string key)
        {
            await page.Locator($"[data-key=\"{key}\"]").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
            for (var stops = 0; stops < 80; stops++)
            {
                if (await FocusedAsync() == key)
                {
                    return;
                }

                await PressAsync("Tab");
            }

            throw new InvalidOperationException($"{key} cannot be reached by Tab.");
        }

        public async Task ChooseAsync(string key)
        {
            var group = key[..key.LastIndexOf('-')];
            await page.Locator($"[data-key=\"{key}\"]").WaitForAsync(new() { State = WaitForSelectorState.Attached });
            for (var stops = 0; stops < 80 && !await InGroupAsync(key); stops++)
            {
                await PressAsync("Tab");
            }

            (await InGroupAsync(key)).ShouldBeTrue($"{group} cannot be reached by Tab.");
            await PressAsync("Space");
            for (var members = 0; members < 6 && await FocusedAsync() != key; members++)
            {
                await PressAsync("ArrowDown");
            }

            (await FocusedAsync()).ShouldBe(key);
            (await page.Locator($"[data-key=\"{key}\"]").IsCheckedAsync()).ShouldBeTrue();
        }

        private Task<bool> InGroupAsync(string key) => page.EvaluateAsync<bool>(
            "(key) => { const e = document.querySelector(`[data-key=\"${key}\"]`); return Boolean(e) && document.activeElement?.name === e.name; }", key);

        private Task<string?> FocusedAsync() => page.EvaluateAsync<string?>("() => document.activeElement?.dataset?.key ?? null");
    }
}
