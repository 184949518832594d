using System.Globalization;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>
/// Two reports of the demonstration, read back from the record, against arithmetic done with pencil and paper:
/// z = (seconds − mean) / SD, 100 × seconds / mean, slow where seconds exceed mean + 2 SD. Means and SDs are those of
/// Arch Phys Med Rehabil 1969;50:311-319, from memory, so for demonstration only; they were copied here from the norm
/// table, not from the program. Rounding is half away from zero, common practice, no source.
/// </summary>
[Collection<SharedEmbeddedDelivery>]
public sealed class HandCalculationTests(EmbeddedDelivery delivery)
{
    // Brackwater, first visit: born 1951-06-03, tested 2026-01-22, so 74 years; male; right-handed. Men of 60 to 94 years.
    private const string Brackwater = "harbour-hand-clinic/HHC-003991-20260122";

    // Quillfeather, first visit: born 1969-09-30, tested 2026-03-03, so 56 years; male; left-handed: the right hand is the
    // non-dominant one. Men of 20 to 59 years.
    private const string Quillfeather = "harbour-hand-clinic/HHC-004502-20260303";

    public static TheoryData<string, string, string, string, string, string, string, string> Rows => new()
    {
        // 47.3 - 48.2 = -0.9;  -0.9 / 19.1 = -0.047;  47.3 / 48.2 = 0.9813;  limit 48.2 + 38.2 = 86.4
        { Brackwater, "writing", "left", "non-dominant", "47.3", "-0.05", "98.1", "within-norm" },
        // 20.4 - 19.5 = 0.9;  0.9 / 7.5 = 0.12;  20.4 / 19.5 = 1.0462;  limit 19.5 + 15.0 = 34.5
        { Brackwater, "writing", "right", "dominant", "20.4", "0.12", "104.6", "within-norm" },
        // 6.9 - 6.1 = 0.8;  0.8 / 2.2 = 0.364;  6.9 / 6.1 = 1.1311;  limit 6.1 + 4.4 = 10.5
        { Brackwater, "card-turning", "left", "non-dominant", "6.9", "0.36", "113.1", "within-norm" },
        // 6.9 - 5.3 = 1.6;  1.6 / 1.6 = 1;  6.9 / 5.3 = 1.3019;  limit 5.3 + 3.2 = 8.5
        { Brackwater, "card-turning", "right", "dominant", "6.9", "1.00", "130.2", "within-norm" },
        // 8.6 - 7.9 = 0.7;  0.7 / 1.9 = 0.368;  8.6 / 7.9 = 1.0886;  limit 7.9 + 3.8 = 11.7
        { Brackwater, "small-common-objects", "left", "non-dominant", "8.6", "0.37", "108.9", "within-norm" },
        // 9.6 - 6.8 = 2.8;  2.8 / 1.2 = 2.333;  9.6 / 6.8 = 1.4118;  limit 6.8 + 2.4 = 9.2, exceeded
        { Brackwater, "small-common-objects", "right", "dominant", "9.6", "2.33", "141.2", "slow" },
        // 12.0 - 8.6 = 3.4;  3.4 / 1.5 = 2.267;  12.0 / 8.6 = 1.3953;  limit 8.6 + 3.0 = 11.6, exceeded
        { Brackwater, "simulated-feeding", "left", "non-dominant", "12.0", "2.27", "139.5", "slow" },
        // 11.7 - 6.9 = 4.8;  4.8 / 0.9 = 5.333;  11.7 / 6.9 = 1.6957;  limit 6.9 + 1.8 = 8.7, exceeded
        { Brackwater, "simulated-feeding", "right", "dominant", "11.7", "5.33", "169.6", "slow" },
        // 5.8 - 4.6 = 1.2;  1.2 / 1.0 = 1.2;  5.8 / 4.6 = 1.2609;  limit 4.6 + 2.0 = 6.6
        { Brackwater, "stacking-checkers", "left", "non-dominant", "5.8", "1.20", "126.1", "within-norm" },
        // 5.4 - 3.8 = 1.6;  1.6 / 0.7 = 2.286;  5.4 / 3.8 = 1.4211;  limit 3.8 + 1.4 = 5.2, exceeded
        { Brackwater, "stacking-checkers", "right", "dominant", "5.4", "2.29", "142.1", "slow" },
        // 4.7 - 3.9 = 0.8;  0.8 / 0.7 = 1.143;  4.7 / 3.9 = 1.2051;  limit 3.9 + 1.4 = 5.3
        { Brackwater, "large-light-objects", "left", "non-dominant", "4.7", "1.14", "120.5", "within-norm" },
        // 5.3 - 3.6 = 1.7;  1.7 / 0.7 = 2.429;  5.3 / 3.6 = 1.4722;  limit 3.6 + 1.4 = 5.0, exceeded
        { Brackwater, "large-light-objects", "right", "dominant", "5.3", "2.43", "147.2", "slow" },
        // 4.6 - 3.8 = 0.8;  0.8 / 0.7 = 1.143;  4.6 / 3.8 = 1.2105;  limit 3.8 + 1.4 = 5.2
        { Brackwater, "large-heavy-objects", "left", "non-dominant", "4.6", "1.14", "121.1", "within-norm" },
        // 5.2 - 3.5 = 1.7;  1.7 / 0.7 = 2.429;  5.2 / 3.5 = 1.4857;  limit 3.5 + 1.4 = 4.9, exceeded
        { Brackwater, "large-heavy-objects", "right", "dominant", "5.2", "2.43", "148.6", "slow" },

        // 37.11 - 32.3 = 4.81;  4.81 / 11.8 = 0.408;  37.11 / 32.3 = 1.1489;  limit 32.3 + 23.6 = 55.9
        { Quillfeather, "writing", "right", "non-dominant", "37.11", "0.41", "114.9", "within-norm" },
        // 21.89 - 12.2 = 9.69;  9.69 / 3.5 = 2.769;  21.89 / 12.2 = 1.7943;  limit 12.2 + 7.0 = 19.2, exceeded
        { Quillfeather, "writing", "left", "dominant", "21.89", "2.77", "179.4", "slow" },
        // 5.02 - 4.5 = 0.52;  0.52 / 0.9 = 0.578;  5.02 / 4.5 = 1.1156;  limit 4.5 + 1.8 = 6.3
        { Quillfeather, "card-turning", "right", "non-dominant", "5.02", "0.58", "111.6", "within-norm" },
        // 8.00 - 4.0 = 4.00;  4.00 / 0.9 = 4.444;  8.00 / 4.0 = 2;  limit 4.0 + 1.8 = 5.8, exceeded
        { Quillfeather, "card-turning", "left", "dominant", "8.00", "4.44", "200.0", "slow" },
        // 6.65 - 6.2 = 0.45;  0.45 / 0.9 = 0.5;  6.65 / 6.2 = 1.0726;  limit 6.2 + 1.8 = 8.0
        { Quillfeather, "small-common-objects", "right", "non-dominant", "6.65", "0.50", "107.3", "within-norm" },
        // 10.83 - 5.9 = 4.93;  4.93 / 1.0 = 4.93;  10.83 / 5.9 = 1.8356;  limit 5.9 + 2.0 = 7.9, exceeded
        { Quillfeather, "small-common-objects", "left", "dominant", "10.83", "4.93", "183.6", "slow" },
        // 8.78 - 7.9 = 0.88;  0.88 / 1.3 = 0.677;  8.78 / 7.9 = 1.1114;  limit 7.9 + 2.6 = 10.5
        { Quillfeather, "simulated-feeding", "right", "non-dominant", "8.78", "0.68", "111.1", "within-norm" },
        // 12.52 - 6.4 = 6.12;  6.12 / 0.9 = 6.8;  12.52 / 6.4 = 1.9563 (1.95625);  limit 6.4 + 1.8 = 8.2, exceeded
        { Quillfeather, "simulated-feeding", "left", "dominant", "12.52", "6.80", "195.6", "slow" },
        // 4.10 - 3.8 = 0.30;  0.30 / 0.6 = 0.5;  4.10 / 3.8 = 1.0789;  limit 3.8 + 1.2 = 5.0
        { Quillfeather, "stacking-checkers", "right", "non-dominant", "4.10", "0.50", "107.9", "within-norm" },
        // 6.50 - 3.3 = 3.20;  3.20 / 0.7 = 4.571;  6.50 / 3.3 = 1.9697;  limit 3.3 + 1.4 = 4.7, exceeded
        { Quillfeather, "stacking-checkers", "left", "dominant", "6.50", "4.57", "197.0", "slow" },
        // 3.45 - 3.2 = 0.25;  0.25 / 0.6 = 0.417;  3.45 / 3.2 = 1.0781;  limit 3.2 + 1.2 = 4.4
        { Quillfeather, "large-light-objects", "right", "non-dominant", "3.45", "0.42", "107.8", "within-norm" },
        // 5.65 - 3.0 = 2.65;  2.65 / 0.4 = 6.625, a half, so away from zero 6.63;  5.65 / 3.0 = 1.8833;  limit 3.8, exceeded
        { Quillfeather, "large-light-objects", "left", "dominant", "5.65", "6.63", "188.3", "slow" },
        // 3.57 - 3.1 = 0.47;  0.47 / 0.4 = 1.175, a half, so 1.18;  3.57 / 3.1 = 1.1516;  limit 3.1 + 0.8 = 3.9
        { Quillfeather, "large-heavy-objects", "right", "non-dominant", "3.57", "1.18", "115.2", "within-norm" },
        // 6.39 - 3.0 = 3.39;  3.39 / 0.5 = 6.78;  6.39 / 3.0 = 2.13;  limit 3.0 + 1.0 = 4.0, exceeded
        { Quillfeather, "large-heavy-objects", "left", "dominant", "6.39", "6.78", "213.0", "slow" },
    };

    [Theory, MemberData(nameof(Rows))]
    public async Task Report_Trial_IsWhatPencilAndPaperGive(
        string session, string task, string hand, string role, string seconds, string z, string percent, string judgement)
    {
        var report = await ReportAsync(session);

        var row = report["rows"]!.AsArray().Single(r => (string?)r!["task"] == task && (string?)r["hand"] == hand)!;
        ((string?)row["role"]).ShouldBe(role);
        row["seconds"]!.ToJsonString().ShouldBe(seconds);
        ((decimal)row["z"]!).ShouldBe(decimal.Parse(z, CultureInfo.InvariantCulture));
        ((decimal)row["percentOfMean"]!).ShouldBe(decimal.Parse(percent, CultureInfo.InvariantCulture));
        ((string?)row["judgement"]).ShouldBe(judgement);
    }

    public static TheoryData<string, string, string, string, string> Totals => new()
    {
        // Six tasks, left: 6.9 + 8.6 + 12.0 + 5.8 + 4.7 + 4.6 = 42.6; norm means 6.1 + 7.9 + 8.6 + 4.6 + 3.9 + 3.8 = 34.9.
        { Brackwater, "six-task-total", "left", "42.6", "34.9" },
        // Writing makes it seven: 42.6 + 47.3 = 89.9; 34.9 + 48.2 = 83.1.
        { Brackwater, "seven-task-total", "left", "89.9", "83.1" },
        // Right: 6.9 + 9.6 + 11.7 + 5.4 + 5.3 + 5.2 = 44.1; norm means 5.3 + 6.8 + 6.9 + 3.8 + 3.6 + 3.5 = 29.9.
        { Brackwater, "six-task-total", "right", "44.1", "29.9" },
        // 44.1 + 20.4 = 64.5; 29.9 + 19.5 = 49.4.
        { Brackwater, "seven-task-total", "right", "64.5", "49.4" },
        // Right, not dominant: 5.02 + 6.65 + 8.78 + 4.10 + 3.45 + 3.57 = 31.57; 4.5 + 6.2 + 7.9 + 3.8 + 3.2 + 3.1 = 28.7.
        { Quillfeather, "six-task-total", "right", "31.57", "28.7" },
        // 31.57 + 37.11 = 68.68; 28.7 + 32.3 = 61.0.
        { Quillfeather, "seven-task-total", "right", "68.68", "61.0" },
        // Left, dominant: 8.00 + 10.83 + 12.52 + 6.50 + 5.65 + 6.39 = 49.89; 4.0 + 5.9 + 6.4 + 3.3 + 3.0 + 3.0 = 25.6.
        { Quillfeather, "six-task-total", "left", "49.89", "25.6" },
        // 49.89 + 21.89 = 71.78; 25.6 + 12.2 = 37.8.
        { Quillfeather, "seven-task-total", "left", "71.78", "37.8" },
    };

    [Theory, MemberData(nameof(Totals))]
    public async Task Report_Total_IsWhatPencilAndPaperGive(string session, string total, string hand, string seconds, string normMean)
    {
        var report = await ReportAsync(session);

        var row = report["totals"]!.AsArray().Single(t => (string?)t!["total"] == total && (string?)t["hand"] == hand)!;
        row["seconds"]!.ToJsonString().ShouldBe(seconds);
        row["normMean"]!.ToJsonString().ShouldBe(normMean);
    }

    // Calendar: 74 full years from 1951-06-03 to 2026-01-22, 56 from 1969-09-30 to 2026-03-03.
    [Theory]
    [InlineData(Brackwater, 74, 60, 94)]
    [InlineData(Quillfeather, 56, 20, 59)]
    public async Task Report_Age_ChoosesTheNormGroup(string session, int age, int from, int to)
    {
        var report = await ReportAsync(session);

        ((int)report["ageInYears"]!).ShouldBe(age);
        ((bool)report["demonstration"]!).ShouldBeTrue();
        foreach (var norm in report["rows"]!.AsArray().Select(r => r!["norms"]!.AsArray().Single()!))
        {
            ((int)norm["ageMin"]!).ShouldBe(from);
            ((int)norm["ageMax"]!).ShouldBe(to);
            ((string?)norm["sex"]).ShouldBe("male");
            ((string?)norm["evidence"]).ShouldBe("recalled");
        }
    }

    private Task<JsonNode> ReportAsync(string session) =>
        Clinic.GetAsync(delivery.Service.Api, $"sessions/{session}/report", TestContext.Current.CancellationToken);
}
