using System.Text.RegularExpressions;
using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests;

/// <summary>What is loaded, how fast, and that it is all there.</summary>
public sealed partial class LoadTests(Browser browser, Clinic clinic, ITestOutputHelper output)
{
    private const int LargestFirstLoad = 200_000;
    private const double SlowestReadyMilliseconds = 1000;

    private static string Files => Path.Combine(AppContext.BaseDirectory, "table");

    [Fact]
    public async Task FirstLoad_EverythingTransferred_IsUnderTwoHundredKilobytesCompressed()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var page = await context.NewPageAsync();
        long bytes = 0;
        var foreign = new List<string>();
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(new Uri(clinic.Page, "/").ToString(), StringComparison.Ordinal))
            {
                foreign.Add(request.Url);
            }
        };
        page.RequestFinished += async (_, request) =>
        {
            var sizes = await request.SizesAsync();
            Interlocked.Add(ref bytes, sizes.ResponseBodySize + sizes.ResponseHeadersSize);
        };

        await new Therapist(page, clinic).OpenAsync();
        await page.WaitForLoadStateAsync(Microsoft.Playwright.LoadState.NetworkIdle);

        output.WriteLine($"First load: {bytes} bytes with headers.");
        bytes.ShouldBeInRange(1, LargestFirstLoad);
        foreign.ShouldBeEmpty();
    }

    [Fact]
    [Trait("machine", "at-rest")]
    public async Task Ready_SecondVisit_IsUnderOneSecond()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.OpenAsync();
        await therapist.Page.EvaluateAsync("() => navigator.serviceWorker.ready");
        var times = new List<double>();
        for (var visit = 0; visit < 5; visit++)
        {
            await therapist.Page.ReloadAsync();
            await therapist.ReadyAsync();
            times.Add(await therapist.Page.EvaluateAsync<double>("() => performance.getEntriesByName('table-ready')[0].startTime"));
        }

        output.WriteLine($"Ready after, ms: {string.Join(' ', times.Select(t => t.ToString("F0", System.Globalization.CultureInfo.InvariantCulture)))}");
        times.Min().ShouldBeLessThan(SlowestReadyMilliseconds);
    }

    [Fact]
    public async Task Assets_EveryFile_IsServedWithThePolicy()
    {
        Assert.SkipUnless(Browser.Present, "The service is started for the browser's tests only.");
        foreach (var file in Directory.EnumerateFiles(Files, "*", SearchOption.AllDirectories))
        {
            var path = Path.GetRelativePath(Files, file).Replace('\\', '/');
            (await clinic.BytesAsync(path)).ShouldBe(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken), path);
        }
    }

    [Fact]
    public async Task Install_ManifestAndWorker_MakeThePageInstallable()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.OpenAsync();
        await therapist.Page.EvaluateAsync("() => navigator.serviceWorker.ready");
        var devtools = await context.NewCDPSessionAsync(therapist.Page);

        var manifest = await devtools.SendAsync("Page.getAppManifest");
        var errors = await devtools.SendAsync("Page.getInstallabilityErrors");

        manifest!.Value.GetProperty("errors").GetArrayLength().ShouldBe(0);
        // A profile that is thrown away cannot install anything; nothing else may stand in the way.
        errors!.Value.GetProperty("installabilityErrors").EnumerateArray()
            .Select(e => e.GetProperty("errorId").GetString()).Where(e => e != "in-incognito").ShouldBeEmpty();
    }

    [Fact]
    public void Texts_EveryKeyInTheSource_IsInTheTextFile()
    {
        var texts = System.Text.Json.JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Files, "text.en.json"))).RootElement.GetProperty("text")
            .EnumerateObject().Select(p => p.Name).ToHashSet();
        var used = Directory.EnumerateFiles(Path.Combine(Files, "js"), "*.js", SearchOption.AllDirectories)
            .SelectMany(file => TextKey().Matches(File.ReadAllText(file)).Select(m => m.Groups[1].Value)).Distinct().ToList();

        used.Count.ShouldBeGreaterThan(150);
        used.Where(key => !texts.Contains(key) && !texts.Contains(key + ".other")).ShouldBeEmpty();
    }

    [GeneratedRegex(@"\bt\('([a-zA-Z.\-]+)'")]
    private static partial Regex TextKey();
}
