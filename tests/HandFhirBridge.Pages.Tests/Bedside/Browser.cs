using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Bedside;

/// <summary>The system's Chromium. Tests are skipped where there is none.</summary>
public sealed class Browser : IAsyncLifetime
{
    private const string Executable = "/usr/bin/chromium";

    /// <summary>Switches for a machine without a screen; nothing is fetched behind the tests' back.</summary>
    public static readonly string[] Switches =
        ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--no-first-run"];

    // Ends a test that hangs; no measure of speed, so that a busy machine fails no test.
    private const float LongestWait = 180_000;

    private IPlaywright? playwright;
    private IBrowser? browser;

    public static bool Present => File.Exists(Executable);

    public async ValueTask InitializeAsync()
    {
        if (!Present)
        {
            return;
        }

        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = Executable, Args = Switches });
    }

    /// <summary>A fresh profile, as a new tablet has it.</summary>
    public async Task<IBrowserContext> NewContextAsync(int width, int height, bool touch = true)
    {
        Assert.SkipUnless(Present, "Chromium is not installed (Debian: apt-get install chromium).");
        var context = await browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            HasTouch = touch,
            Locale = "en-GB",
            TimezoneId = "Europe/Berlin",
        });
        context.SetDefaultTimeout(LongestWait);
        return context;
    }

    /// <summary>A browser of its own with a profile on the disk, to be killed and started again.</summary>
    public async Task<IBrowserContext> LaunchProfileAsync(string directory)
    {
        Assert.SkipUnless(Present, "Chromium is not installed (Debian: apt-get install chromium).");
        var context = await playwright!.Chromium.LaunchPersistentContextAsync(directory, new()
        {
            ExecutablePath = Executable,
            Args = Switches,
            ViewportSize = new() { Width = 820, Height = 1180 },
            Locale = "en-GB",
            TimezoneId = "Europe/Berlin",
        });
        context.SetDefaultTimeout(LongestWait);
        return context;
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.CloseAsync();
        }

        playwright?.Dispose();
    }
}
