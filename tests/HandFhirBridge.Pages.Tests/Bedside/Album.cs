using Microsoft.Playwright;

namespace HandFhirBridge.Pages.Tests.Bedside;

/// <summary>Pictures of every state, for people to look at and for the therapist's guide. Taken only where HFB_PICTURES names a folder.</summary>
internal static class Album
{
    /// <summary>What the page is held in: a phone, a tablet upright, a laptop.</summary>
    public static readonly (string Name, int Width, int Height)[] Devices = [("phone", 390, 844), ("tablet", 820, 1180), ("desktop", 1280, 800)];

    /// <summary>Pictures of the therapist's guide: which state on which device, how much of it from the top in CSS px, and the file's name.</summary>
    public static readonly (string State, string Device, int Height, string File)[] Guide =
    [
        ("patient", "tablet", 720, "table-patient.png"), ("precaution answered yes", "tablet", 1000, "table-precaution.png"),
        ("ready left", "tablet", 1180, "table-ready.png"), ("running", "tablet", 760, "table-running.png"),
        ("doubtful", "tablet", 660, "table-doubtful.png"), ("ruled out", "phone", 844, "table-ruled-out.png"),
        ("review with a correction", "tablet", 720, "table-review.png"), ("waiting to be sent", "tablet", 540, "table-waiting.png"),
        ("home with an unsent session", "tablet", 700, "table-unsent.png"),
    ];

    private static readonly string? Folder = Environment.GetEnvironmentVariable("HFB_PICTURES");

    /// <summary>One picture as the device shows it, and one of the whole page where it is longer than the screen.</summary>
    public static async Task TakeAsync(IPage page, string state, string device)
    {
        if (Folder is null)
        {
            return;
        }

        var path = Path.Combine(Folder, $"{state.Replace(' ', '-')}.{device}");
        await page.ScreenshotAsync(new() { Path = $"{path}.png", Animations = ScreenshotAnimations.Disabled });
        foreach (var (_, _, height, file) in Guide.Where(g => g.State == state && g.Device == device))
        {
            await page.ScreenshotAsync(new()
            {
                Path = Path.Combine(Folder, "guide", file),
                Clip = new() { Width = page.ViewportSize!.Width, Height = height },
                Animations = ScreenshotAnimations.Disabled,
            });
        }

        if (await page.EvaluateAsync<bool>("() => document.documentElement.scrollHeight > innerHeight"))
        {
            // As on a screen long enough for it: what sticks to the bottom is at the bottom.
            var size = page.ViewportSize!;
            await page.SetViewportSizeAsync(size.Width, await page.EvaluateAsync<int>("() => document.documentElement.scrollHeight"));
            await page.ScreenshotAsync(new() { Path = $"{path}.whole.png", Animations = ScreenshotAnimations.Disabled });
            await page.SetViewportSizeAsync(size.Width, size.Height);
        }
    }

    /// <summary>What comes out of the printer, all sheets below one another; <paramref name="width"/> is that of the paper within its margins, in CSS px.</summary>
    public static async Task TakePrintAsync(IPage page, string name, int width)
    {
        if (Folder is null)
        {
            return;
        }

        var size = page.ViewportSize!;
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await page.SetViewportSizeAsync(width, 1000);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Folder, $"{name}.print.png"), FullPage = true });
        await page.EmulateMediaAsync(new() { Media = Media.Null });
        await page.SetViewportSizeAsync(size.Width, size.Height);
    }
}
