using System.Globalization;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Benchmarks;

/// <summary>Measures every ratio and prints it.</summary>
internal static class RatiosCommand
{
    internal static async Task<int> RunAsync(string[] options)
    {
        var only = Array.IndexOf(options, "--only") is >= 0 and var at && at + 1 < options.Length ? options[at + 1].Split(',') : null;
        if (options.Except(["--json", "--quick", "--only", .. only is null ? [] : new[] { string.Join(',', only) }], StringComparer.Ordinal).Any())
        {
            Console.Error.WriteLine("usage: ratios [--json] [--quick] [--only firstVerdict,validate,mapSerialize,deliver,viewRows,record,summary]");
            return 2;
        }

        var isQuick = options.Contains("--quick");
        bool Asked(string name) => only is null || only.Contains(name, StringComparer.Ordinal);
        Ratio[] ratios =
        [
            .. Asked("firstVerdict") ? FirstVerdictRatios.Measure(await PublishedBuild.FindOrMakeAsync(mayMake: !isQuick), isQuick ? 1 : 7) : [],
            .. Asked("validate") ? [ValidateWarm.Measure(isQuick ? 2 : 7, isQuick ? 4 : Corpus.Paths.Length)] : Array.Empty<Ratio>(),
            .. Asked("mapSerialize") ? [MapSerialize.Measure(isQuick ? 5 : 15)] : Array.Empty<Ratio>(),
            .. Asked("deliver") ? await DeliveryRatios.MeasureAsync(isQuick ? 2 : 9, isQuick ? 4 : 144, isQuick ? 1 : 2) : [],
            .. Asked("record") ? await RecordRatios.MeasureAsync(isQuick ? 2 : 5, isQuick ? 9 : 36, isQuick ? 1 : 3, isQuick ? 1_400 : 200_000) : [],
            .. Asked("viewRows") && await ViewRowsRatio.MeasureAsync(isQuick ? 1 : 5, isQuick ? 27 : 270) is { } viewRows ? [viewRows] : Array.Empty<Ratio>(),
            .. Asked("summary") ? [SummaryRatio.Measure(isQuick ? 3 : 9, isQuick ? MillionTrials.Persons / 20 : MillionTrials.Persons)] : Array.Empty<Ratio>(),
        ];
        Console.WriteLine(options.Contains("--json") ? ToJson(ratios) : ToText(ratios));
        return 0;
    }

    private static string ToJson(IEnumerable<Ratio> ratios)
    {
        var all = new JsonObject();
        foreach (var ratio in ratios)
        {
            all[ratio.Name] = new JsonObject
            {
                ["ours"] = Rounded(ratio.Ours.Median),
                ["other"] = Rounded(ratio.Other.Median),
                ["ratio"] = Rounded(ratio.Value),
                ["unit"] = ratio.Unit,
                ["other_is"] = ratio.OtherIs,
                ["ours_spread"] = new JsonArray(Rounded(ratio.Ours.Least), Rounded(ratio.Ours.Most)),
                ["other_spread"] = new JsonArray(Rounded(ratio.Other.Least), Rounded(ratio.Other.Most)),
                ["runs"] = ratio.Ours.Runs,
            };
        }

        return all.ToJsonString(new System.Text.Json.JsonSerializerOptions { WriteIndented = true });
    }

    private static string ToText(IEnumerable<Ratio> ratios) => string.Join(Environment.NewLine, ratios.Select(ratio => string.Create(
        CultureInfo.InvariantCulture,
        $"{ratio.Name,-14} {ratio.Value,7:F2} x   ours {ratio.Ours.Median:F3} ({ratio.Ours.Least:F3} to {ratio.Ours.Most:F3}), other {ratio.Other.Median:F3} ({ratio.Other.Least:F3} to {ratio.Other.Most:F3}) {ratio.Unit}, {ratio.Ours.Runs} runs; other: {ratio.OtherIs}")));

    private static JsonNode Rounded(double value) => Math.Round(value, value < 10 ? 3 : 1);
}
