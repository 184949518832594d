using HandFhirBridge.Pages.Tests.Bedside;
using System.Globalization;

namespace HandFhirBridge.Pages.Tests;

/// <summary>The laterality quotient: Oldfield RC, Neuropsychologia 1971;9:97-113: 100 (R − L) / (R + L) over the pluses of both columns.</summary>
public sealed class LateralityTests(Browser browser, Clinic clinic)
{
    private static readonly (string Answer, int Left, int Right)[] Pluses =
    [
        ("always-left", 2, 0), ("usually-left", 1, 0), ("either", 1, 1), ("usually-right", 0, 1), ("always-right", 0, 2),
    ];

    private static readonly string[] Items =
        ["writing", "drawing", "throwing", "scissors", "toothbrush", "knife", "spoon", "broom", "match", "lid"];

    [Fact]
    public async Task LateralityQuotient_OfTwoHundredAnswerSheets_IsThePublishedFormula()
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var page = await context.NewPageAsync();
        await page.GotoAsync(clinic.Page.ToString());
        var random = new Random(1971);
        for (var sheet = 0; sheet < 200; sheet++)
        {
            var given = Items.Where(_ => random.Next(6) > 0).ToDictionary(item => item, _ => Pluses[random.Next(Pluses.Length)]);
            var answers = given.ToDictionary(g => g.Key, g => g.Value.Answer);

            var quotient = await page.EvaluateAsync<string?>(
                "async (answers) => (await import('/table/js/laterality.js')).lateralityQuotient(answers).quotient", answers);

            int left = given.Values.Sum(g => g.Left), right = given.Values.Sum(g => g.Right);
            if (left + right == 0)
            {
                quotient.ShouldBeNull();
                continue;
            }

            var published = 100m * (right - left) / (right + left);
            decimal.Parse(quotient!, CultureInfo.InvariantCulture).ShouldBe(published, 0.05m);
        }
    }

    [Theory]
    [InlineData("always-right", "100")]
    [InlineData("always-left", "-100")]
    [InlineData("usually-right", "100")]
    [InlineData("either", "0")]
    public async Task LateralityQuotient_AllItemsAlike_IsTheEndOrTheMiddleOfTheScale(string answer, string expected)
    {
        await using var context = await browser.NewContextAsync(820, 1180);
        var page = await context.NewPageAsync();
        await page.GotoAsync(clinic.Page.ToString());

        var quotient = await page.EvaluateAsync<string>(
            "async (answers) => (await import('/table/js/laterality.js')).lateralityQuotient(answers).quotient",
            Items.ToDictionary(item => item, _ => answer));

        quotient.ShouldBe(expected);
    }
}
