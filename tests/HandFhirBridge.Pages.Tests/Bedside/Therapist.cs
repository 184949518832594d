using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Bedside;

/// <summary>Drives the page the way a therapist does.</summary>
public sealed partial class Therapist(IPage page, Clinic clinic)
{
    public static readonly string[] Precautions =
        ["lifting-restriction", "recent-tendon-repair", "unhealed-fracture", "open-wound", "recent-nerve-or-joint-surgery", "pain-limits-use"];

    /// <summary>Everything the browser keeps for the page, and the page itself, as one text.</summary>
    public const string EverythingKept = """
        async () => {
          const found = [JSON.stringify(localStorage), JSON.stringify(sessionStorage), document.documentElement.outerHTML];
          for (const { name } of await indexedDB.databases()) {
            const db = await new Promise((resolve) => { const r = indexedDB.open(name); r.onsuccess = () => resolve(r.result); });
            for (const store of db.objectStoreNames) {
              found.push(await new Promise((resolve) => { const r = db.transaction(store).objectStore(store).getAll(); r.onsuccess = () => resolve(JSON.stringify(r.result)); }));
            }
            db.close();
          }
          for (const name of await caches.keys()) {
            for (const request of await (await caches.open(name)).keys()) found.push(request.url, await (await caches.match(request)).text());
          }
          return found.join('\n');
        }
        """;

    private ICDPSession? devtools;

    public IPage Page => page;

    public ILocator Key(string key) => page.Locator($"[data-key=\"{key}\"]");

    public ILocator Heading => page.Locator("h1");

    /// <summary>Opens the page and waits until it can be used.</summary>
    public async Task OpenAsync(string hash = "")
    {
        await page.GotoAsync(clinic.Page + hash);
        await ReadyAsync();
    }

    public Task ReadyAsync() => UntilAsync("performance.getEntriesByName('table-ready').length > 0");

    /// <summary>Waits in the page itself until the expression holds; the page's policy forbids anything that has to be compiled there.</summary>
    public Task UntilAsync(string expression) => page.EvaluateAsync(
        $"() => new Promise((resolve) => {{ const look = () => (({expression}) ? resolve() : setTimeout(look, 10)); look(); }})")
        .WaitAsync(TimeSpan.FromSeconds(30));

    public async Task SetUpDeviceAsync()
    {
        await OpenAsync("#/device");
        await FillDeviceAsync();
    }

    /// <summary>The device screen is open: what a clinic sets once.</summary>
    public async Task FillDeviceAsync()
    {
        // A field to type in until the service has said which clinics there are.
        await page.Locator("select[data-key=site]").SelectOptionAsync("harbour-hand-clinic");
        await Key("patient-system").FillAsync("https://harbour-hand-clinic.example/id/patient");
        await Key("staff-system").FillAsync("https://harbour-hand-clinic.example/id/staff");
        await Key("Done").ClickAsync();
    }

    /// <summary>A radio button or check box behind a tile.</summary>
    public Task ChooseAsync(string key) => Key(key).CheckAsync(new() { Force = true });

    public async Task NewSessionAsync(string patient = "HHC-004417")
    {
        await Key("new").ClickAsync();
        await Key("number").FillAsync(patient);
        await Key("look-up").ClickAsync();
    }

    public async Task BeforeAsync(string cap = "120", string? ruledOut = null, string handedness = "right")
    {
        await Key("agree").ClickAsync();
        await Key("next").ClickAsync();
        await FillPerformerAsync();
        await Key("next").ClickAsync();
        await ChooseAsync($"handedness-{handedness}");
        await ChooseAsync("how-known-stated");
        await Key("next").ClickAsync();
        await AskPrecautionsAsync(ruledOut);
        await ChooseAsync("sex-female");
        await ChooseAsync("glasses-not-needed");
        await ChooseAsync("template-false");
        await ChooseAsync("cap-in-force-true");
        await Key("cap-seconds").FillAsync(cap);
        await Key("next").ClickAsync();
    }

    public async Task FillPerformerAsync()
    {
        await Key("performer-name").FillAsync("Ines Calderwick");
        await Key("performer-number").FillAsync("HHC-T-03");
        await Key("performer-role").SelectOptionAsync("occupational-therapist");
    }

    /// <summary>A session at its first trial.</summary>
    public async Task BeginAsync(string cap = "120", string? ruledOut = null)
    {
        await SetUpDeviceAsync();
        await NewSessionAsync();
        await BeforeAsync(cap, ruledOut);
        await page.Locator(".trial.ready").WaitForAsync();
    }

    /// <summary>Seconds since 1970 on the page's monotonic clock.</summary>
    public Task<double> NowAsync() => page.EvaluateAsync<double>("() => (performance.timeOrigin + performance.now()) / 1000");

    /// <summary>
    /// Presses start or stop at <paramref name="at"/>, seconds since 1970. The browser stamps the event with that time, so that
    /// spacings are known exactly however busy the machine is.
    /// </summary>
    public async Task PressAtAsync(double at)
    {
        devtools ??= await page.Context.NewCDPSessionAsync(page);
        var box = await Key("run").BoundingBoxAsync() ?? throw new InvalidOperationException("There is nothing to press.");
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await devtools.SendAsync("Input.dispatchMouseEvent", new()
        {
            ["type"] = "mousePressed", ["x"] = x, ["y"] = y, ["button"] = "left", ["clickCount"] = 1, ["timestamp"] = at,
        });
        await devtools.SendAsync("Input.dispatchMouseEvent", new() { ["type"] = "mouseReleased", ["x"] = x, ["y"] = y, ["button"] = "left", ["clickCount"] = 1 });
    }

    /// <summary>Waits until the page is older than <paramref name="seconds"/>: no event of a page is older than the page.</summary>
    public Task OlderThanAsync(double seconds) =>
        UntilAsync(string.Create(CultureInfo.InvariantCulture, $"performance.now() > {1000 * (seconds + 0.2):F0}"));

    /// <summary>Touches start or stop, stamped <paramref name="ago"/> before now.</summary>
    public async Task TouchAsync(TimeSpan ago = default)
    {
        await OlderThanAsync(ago.TotalSeconds);
        devtools ??= await page.Context.NewCDPSessionAsync(page);
        var box = await Key("run").BoundingBoxAsync() ?? throw new InvalidOperationException("There is nothing to touch.");
        var now = await NowAsync();
        var finger = new Dictionary<string, object> { ["x"] = box.X + (box.Width / 2), ["y"] = box.Y + (box.Height / 2) };
        await devtools.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = "touchStart", ["touchPoints"] = new[] { finger }, ["timestamp"] = now - ago.TotalSeconds });
        await devtools.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = "touchEnd", ["touchPoints"] = Array.Empty<object>() });
    }

    /// <summary>A trial that takes about <paramref name="seconds"/>, kept.</summary>
    public async Task TimeTrialAsync(string hand, double seconds = 0.5)
    {
        await page.Locator($".trial.ready.{hand}").WaitForAsync();
        await TouchAsync(TimeSpan.FromSeconds(seconds));
        await page.Locator(".trial.running").WaitForAsync();
        await TouchAsync();
        await Key("keep").ClickAsync();
    }

    /// <summary>A stopwatch time, typed.</summary>
    public async Task TypeTrialAsync(string hand, string seconds)
    {
        await page.Locator($".trial.ready.{hand}").WaitForAsync();
        await Key("type-time").ClickAsync();
        await Key("typed").FillAsync(seconds);
        await Key("keep").ClickAsync();
    }

    /// <summary>Tells the page that it is hidden or seen: a browser without a window never hides one by itself.</summary>
    public Task HideAsync(bool hidden) => page.EvaluateAsync(
        "(hidden) => { Object.defineProperty(document, 'hidden', { value: hidden, configurable: true }); document.dispatchEvent(new Event('visibilitychange')); }",
        hidden);

    public async Task<string> TimeTakenAsync() =>
        SecondsText().Match(await page.Locator(".time-taken").InnerTextAsync()).Value;

    /// <summary>Sends from the review and catches the document on its way.</summary>
    public async Task<string> SendAsync()
    {
        await Key("send").ClickAsync();
        var request = await page.RunAndWaitForRequestAsync(
            () => page.Locator("dialog .primary").ClickAsync(),
            sent => sent.Method == "POST" && sent.Url.EndsWith("/sessions", StringComparison.Ordinal));
        return request.PostData!;
    }

    /// <summary>The session as the page keeps it, deciphered by the page itself.</summary>
    public async Task<JsonElement> KeptAsync() => (await page.EvaluateAsync<JsonElement?>(
        "async () => { const v = await import('/table/js/vault.js'); await v.openVault(); return [...(await v.unsealAll()).values()]; }"))!.Value;

    public Task WaitForStateAsync(string state) => page.Locator($"h1:text-is(\"{state}\")").WaitForAsync();

    private async Task AskPrecautionsAsync(string? ruledOut)
    {
        foreach (var precaution in Precautions)
        {
            if (precaution == "lifting-restriction" && ruledOut is not null)
            {
                await ChooseAsync("answer-lifting-restriction-yes");
                await ChooseAsync("out-lifting-restriction-large-heavy-objects");
                await ChooseAsync($"hands-lifting-restriction-{ruledOut}");
                await Key("note-lifting-restriction").FillAsync("Surgeon: nothing above 250 g.");
            }
            else
            {
                await ChooseAsync($"answer-{precaution}-no");
            }

            await Key("next").ClickAsync();
        }
    }

    [GeneratedRegex(@"\d+\.\d{2}")]
    private static partial Regex SecondsText();
}
