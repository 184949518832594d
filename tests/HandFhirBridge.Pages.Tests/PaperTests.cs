using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests;

/// <summary>The day the tablet was broken: print, give the test on paper, type it in.</summary>
public sealed partial class PaperTests(Browser browser, Clinic clinic, ITestOutputHelper output)
{
    // Keystroke-level model: Card SK, Moran TP, Newell A, Commun ACM 1980;23:396-410. 0.28 s a key for a non-secretary typist,
    // 1.35 s to prepare for each unit (here: look at the sheet for each field), 0.4 s to move a hand to the keyboard, once.
    private const double KeySeconds = 0.28;
    private const double PrepareSeconds = 1.35;
    private const double LongestTypingSeconds = 180;

    private static readonly string[] Tasks =
        ["writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects"];

    [Fact]
    public async Task PaperSheet_TypedIn_TakesUnderThreeMinutesAndIsSentAsManual()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.SetUpDeviceAsync();
        await therapist.Key("paper").ClickAsync();
        // The therapist typed a sheet on this device before: who gives the test is remembered.
        await therapist.FillPerformerAsync();
        var typist = new Typist(therapist);

        await typist.TypeAsync("number", "HHC-004502");
        await typist.PressAsync("Enter");
        await therapist.Key("agree").WaitForAsync();
        await typist.ChooseAsync("agree");
        await typist.TypeAsync("date", "2026-02-10");
        await typist.TypeAsync("from", "09:05");
        await typist.TypeAsync("to", "09:30");
        await typist.ChooseAsync("handedness-right");
        await typist.ChooseAsync("how-known-stated");
        await typist.ChooseAsync("all-no");
        foreach (var answer in new[] { "sex-male", "glasses-worn", "template-false", "cap-in-force-true" })
        {
            await typist.ChooseAsync(answer);
        }

        foreach (var task in Tasks)
        {
            await typist.TypeAsync($"seconds-{task}-left", "12.40");
            await typist.TypeAsync($"seconds-{task}-right", "10.05");
        }

        await typist.ChooseAsync("review");
        await therapist.Page.Locator(".norm-sources").WaitForAsync();
        var sent = await therapist.SendAsync();

        var estimate = 0.4 + (typist.Keys * KeySeconds) + (typist.Fields * PrepareSeconds);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{typist.Keys} keys, {typist.Fields} fields: {estimate:F0} s by the keystroke-level model."));
        estimate.ShouldBeLessThan(LongestTypingSeconds);
        var session = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(Encoding.UTF8.GetBytes(sent)).Value!;
        session.Trials.Length.ShouldBe(14);
        session.Trials.ShouldAllBe(t => t.Source == TimeSource.Manual);
        session.Trials[0].Seconds!.Value.ToString(CultureInfo.InvariantCulture).ShouldBe("12.40");
    }

    [Fact]
    public async Task PaperSheet_WithFaults_NamesEachAndSendsNothing()
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.SetUpDeviceAsync();
        await therapist.Key("paper").ClickAsync();
        await therapist.ChooseAsync("handedness-right");
        await therapist.Key("seconds-writing-left").FillAsync("1:05");
        await therapist.Key("outcome-writing-right").SelectOptionAsync("not-given");

        await therapist.Key("review").ClickAsync();

        var found = await therapist.Page.Locator("#paper-problems li").AllInnerTextsAsync();
        found.ShouldContain("Patient number is missing.");
        found.ShouldContain(p => p.StartsWith("Writing, left hand: Type seconds as digits", StringComparison.Ordinal));
        found.ShouldContain("Writing, right hand: A reason is needed.");
        found.Count(p => p.Contains("Type the seconds.", StringComparison.Ordinal)).ShouldBe(12);
        (await therapist.KeptAsync())[0].GetProperty("trials").GetArrayLength().ShouldBe(0);
    }

    // ISO 216: A4 is 210 × 297 mm; ANSI Y14.1: letter is 8.5 × 11 in. A PDF point is 1/72 in.
    [Theory]
    [InlineData("sheet", "a4", 595, 842, 1)]
    [InlineData("sheet", "letter", 612, 792, 1)]
    [InlineData("cards", "a4", 595, 842, 7)]
    [InlineData("cards", "letter", 612, 792, 7)]
    public async Task Print_SheetAndCards_FitTheirPaper(string screen, string paper, int width, int height, int pages)
    {
        await using var context = await browser.NewContextAsync(1280, 800, touch: false);
        var therapist = new Therapist(await context.NewPageAsync(), clinic);
        await therapist.OpenAsync($"#/{screen}");
        await therapist.ChooseAsync($"paper-{paper}");
        await therapist.Page.Locator($".page.paper-{paper}").First.WaitForAsync();

        await Album.TakePrintAsync(therapist.Page, $"{screen}-{paper}", width * 96 / 72 - 91); // less 12 mm on either side
        var pdf = Encoding.Latin1.GetString(await therapist.Page.PdfAsync(new() { PreferCSSPageSize = true, PrintBackground = true }));

        var boxes = MediaBox().Matches(pdf);
        boxes.Count.ShouldBe(pages);
        foreach (Match box in boxes)
        {
            double.Parse(box.Groups[1].Value, CultureInfo.InvariantCulture).ShouldBe(width, 1);
            double.Parse(box.Groups[2].Value, CultureInfo.InvariantCulture).ShouldBe(height, 1);
        }
    }

    [GeneratedRegex(@"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]")]
    private static partial Regex MediaBox();

    /// <summary>Counts what a person would have to press and to look up.</summary>
    private sealed class Typist(Therapist therapist)
    {
        public int Keys { get; private set; }

        public int Fields { get; private set; }

        public async Task TypeAsync(string key, string text)
        {
            await therapist.Key(key).FillAsync(text);
            Keys += text.Length + 1; // and Tab
            Fields++;
        }

        public async Task ChooseAsync(string key)
        {
            if (await therapist.Key(key).GetAttributeAsync("type") == "radio")
            {
                await therapist.ChooseAsync(key);
            }
            else
            {
                await therapist.Key(key).ClickAsync();
            }

            Keys += 3; // Tab, an arrow, Space
            Fields++;
        }

        public async Task PressAsync(string key)
        {
            await therapist.Page.Keyboard.PressAsync(key);
            Keys++;
        }
    }
}
