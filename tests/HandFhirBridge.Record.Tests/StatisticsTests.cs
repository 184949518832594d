using System.Globalization;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests;

// Figures of Observation/$stats against published ones. The definition (http://hl7.org/fhir/OperationDefinition/Observation-stats, as of R4)
// explains each statistic by a link; what its links leave open (n − 1, which quantile) is fixed here by the published examples.
public sealed class StatisticsTests(RecordServer server) : IClassFixture<RecordServer>
{
    [Theory]
    // NIST StRD, univariate summary statistics, NumAcc1: mean 10000002 (exact), sample standard deviation (denominator n-1) 1 (exact).
    [InlineData("10000001 10000003 10000002", "average", 10000002)]
    [InlineData("10000001 10000003 10000002", "std-dev", 1)]
    [InlineData("10000001 10000003 10000002", "variance", 1)]
    // Microsoft Excel, documentation of SKEW and KURT: SKEW(3,4,5,2,3,4,5,6,4,7) = 0.359543, KURT of the same = -0.151799637.
    [InlineData("3 4 5 2 3 4 5 6 4 7", "skew", 0.359543)]
    [InlineData("3 4 5 2 3 4 5 6 4 7", "kurtosis", -0.151799637)]
    // Microsoft Excel, documentation of QUARTILE: first quartile of 1, 2, 4, 7, 8, 9, 10, 12 is 3.5.
    [InlineData("1 2 4 7 8 9 10 12", "4-lower", 3.5)]
    // Wikipedia, "Percentile" (the definition's own link), linear interpolation with C = 1: the 75th of 1, 2, 3, 4 is 3.25, the 40th of 15, 20, 35, 40, 50 is 29.
    [InlineData("1 2 3 4", "4-upper", 3.25)]
    [InlineData("15 20 35 40 50", "5-2", 29)]
    // The same formula, x = p (N − 1) + 1, by hand.
    [InlineData("15 20 35 40 50", "20-percent", 19)]
    [InlineData("15 20 35 40 50", "5-1", 19)]
    [InlineData("15 20 35 40 50", "5-3", 37)]
    [InlineData("15 20 35 40 50", "80-percent", 42)]
    [InlineData("15 20 35 40 50", "5-4", 42)]
    // "one-half the difference between the first and the third quartiles": (3.25 - 1.75) / 2
    [InlineData("1 2 3 4", "4-dev", 0.75)]
    [InlineData("1 2 3 4", "median", 2.5)]
    [InlineData("15 20 35 40 50", "median", 35)]
    [InlineData("15 20 35 40 50", "maximum", 50)]
    [InlineData("15 20 35 40 50", "minimum", 15)]
    [InlineData("15 20 35 40 50", "sum", 160)]
    [InlineData("15 20 35 40 50", "count", 5)]
    [InlineData("15 20 35 40 50", "total-count", 5)]
    public async Task Stats_OfPublishedData_GivesThePublishedFigure(string values, string statistic, double published)
    {
        var patient = await CourseAsync(values.Split(' '));

        var component = Components(await StatsAsync(patient, statistic)).ShouldHaveSingleItem();

        component["valueQuantity"]!["value"]!.GetValue<double>().ShouldBe(published, Math.Abs(published) * 1e-6 + 1e-12);
        ((string)component["code"]!["coding"]![0]!["code"]!).ShouldBe(statistic);
        ((string)component["code"]!["coding"]![0]!["system"]!).ShouldBe("http://terminology.hl7.org/CodeSystem/observation-statistics");
    }

    // NIST StRD, univariate summary statistics, NumAcc3 and NumAcc4: 1001 numbers around 1000000.2 and 10000000.2, made to expose
    // cancellation; mean as named (exact), sample standard deviation 0.1 (exact).
    [Theory]
    [InlineData("1000000")]
    [InlineData("10000000")]
    public async Task Stats_OfStiffData_GivesTheCertifiedFigures(string whole)
    {
        var values = Enumerable.Range(0, 1001).Select(i => $$"""{"code":{"coding":[{"system":"urn:c","code":"n"}]},"valueQuantity":{"value":{{whole}}.{{(i == 0 ? 2 : i % 2 == 1 ? 1 : 3)}},"system":"http://unitsofmeasure.org","code":"s"} }""");
        var id = "acc" + whole;
        await server.PutAsync($$"""{"resourceType":"Observation","id":"{{id}}","status":"final","code":{"text":"all"},"subject":{"reference":"Patient/{{id}}"},"component":[{{string.Join(',', values)}}]}""");

        var figures = Components(await StatsAsync(id, "count", "average", "std-dev")).Select(c => c["valueQuantity"]!["value"]!.GetValue<double>()).ToList();

        figures[0].ShouldBe(1001);
        figures[1].ShouldBe(double.Parse(whole + ".2", CultureInfo.InvariantCulture), 1e-6);
        figures[2].ShouldBe(0.1, 1e-7);
    }

    // NIST StRD, linear regression, Norris: B0 = -0.262323073774029, B1 = 1.00211681802045. x is given as days after the first of January.
    private const string Norris = """
        0.1 0.2|338.8 337.4|118.1 118.2|888.0 884.6|9.2 10.1|228.1 226.5|668.5 666.3|998.5 996.3|449.1 448.6|778.9 777.0|559.2 558.2|0.3 0.4|
        0.1 0.6|778.1 775.5|668.8 666.9|339.3 338.0|448.9 447.5|10.8 11.6|557.7 556.0|228.3 228.1|998.0 995.8|888.8 887.6|119.6 120.2|0.3 0.3|
        0.6 0.3|557.6 556.8|339.3 339.1|888.0 887.2|998.5 999.0|778.9 779.0|10.2 11.1|117.6 118.3|228.9 229.2|668.4 669.1|449.2 448.9|0.2 0.5
        """;

    [Fact]
    public async Task Stats_Regression_GivesTheCertifiedGradientAndIntercept()
    {
        var origin = new DateTimeOffset(2020, 1, 1, 0, 0, 0, TimeSpan.Zero);
        var pairs = Norris.Split('|', StringSplitOptions.TrimEntries).Select(p => p.Split(' ')).ToList();
        pairs.Count.ShouldBe(36);
        await server.PutAsync(pairs.Select((p, i) => Observation(
            $"norris{i}", "norris", p[0], origin.AddSeconds((double)(86400 * decimal.Parse(p[1], CultureInfo.InvariantCulture))).ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture))));

        // "This Statistic code will return both a gradient and an intercept value."
        var answer = await server.SendAsync(HttpMethod.Post, "Observation/$stats?statistic=regression&subject=Patient/norris&code=n&system=urn:c", """
            {"resourceType":"Parameters","parameter":[{"name":"period","valuePeriod":{"start":"2020-01-01T00:00:00Z"} }]}
            """);

        var components = Components(answer);
        components.Select(c => c["valueQuantity"]!["value"]!.GetValue<double>()).ShouldBe([1.00211681802045, -0.262323073774029], 1e-12);
        components.Select(c => (string)c["valueQuantity"]!["code"]!).ShouldBe(["s/d", "s"]);
        components.Select(c => (string)c["code"]!["text"]!).ShouldBe(["Regression: gradient, per day", "Regression: intercept, at 2020-01-01T00:00:00Z"]);
    }

    // R4 datatypes.html#decimal: "the precision of the decimal value has significance".
    [Theory]
    [InlineData("minimum", "9.80")]
    [InlineData("maximum", "12.40")]
    [InlineData("sum", "32.30")]
    public async Task Stats_ThatAreMeasuredValues_KeepTheirDigits(string statistic, string digits)
    {
        var patient = await CourseAsync("12.40", "9.80", "10.10");

        Components(await StatsAsync(patient, statistic)).Single()["valueQuantity"]!["value"]!.ToJsonString().ShouldBe(digits);
    }

    // UCUM, section 2.1: an exponent belongs to a simple unit; both of these were read by the UCUM library of the Lister Hill Center.
    [Theory]
    [InlineData("s", "s2")]
    [InlineData("mm[Hg]", "mm[Hg]2")]
    [InlineData("kg/m2", "(kg/m2).(kg/m2)")]
    public async Task Stats_Variance_IsInTheSquareOfTheUnit(string unit, string square)
    {
        var patient = "square" + unit.Length;
        await server.PutAsync(Observation(patient + "1", patient, "1", "2026-01-01", unit), Observation(patient + "2", patient, "3", "2026-01-02", unit));

        var components = Components(await StatsAsync(patient, "variance", "skew"));

        ((string)components[0]["valueQuantity"]!["code"]!).ShouldBe(square);
        components[0]["valueQuantity"]!["value"]!.GetValue<double>().ShouldBe(2);
        // "or even undefined": of two values, and for want of another reason in the value set, there is no proper value.
        components[1]["valueQuantity"].ShouldBeNull();
        ((string)components[1]["dataAbsentReason"]!["coding"]![0]!["code"]!).ShouldBe("not-applicable");
    }

    private async Task<RecordServer.Answer> StatsAsync(string patient, params string[] statistics)
    {
        var answer = await server.GetAsync($"Observation/$stats?subject=Patient/{patient}&code=n&system=urn:c&{string.Join('&', statistics.Select(s => $"statistic={s}"))}");
        answer.Status.ShouldBe(200, answer.Text);
        return answer;
    }

    private static List<JsonNode> Components(RecordServer.Answer answer) =>
        [.. answer.Json["parameter"]!.AsArray().ShouldHaveSingleItem()!["resource"]!["component"]!.AsArray().Select(c => c!)];

    // A patient of its own for each course.
    private async Task<string> CourseAsync(params string[] values)
    {
        var patient = "course" + string.Join('-', values);
        foreach (var (i, value) in values.Index())
        {
            await server.SendAsync(HttpMethod.Put, $"Observation/{patient}.{i}", Observation($"{patient}.{i}", patient, value, $"2026-01-{i + 1:00}"));
        }

        return patient;
    }

    private static string Observation(string id, string patient, string value, string at, string unit = "s") => $$"""
        {"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"urn:c","code":"n"}]},
         "subject":{"reference":"Patient/{{patient}}"},"effectiveDateTime":"{{at}}",
         "valueQuantity":{"value":{{value}},"unit":"{{unit}}","system":"http://unitsofmeasure.org","code":"{{unit}}"} }
        """;
}
