using System.Globalization;
using System.Text.RegularExpressions;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Tests.Views;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Tests.Rows;

/// <summary>The statements of docs/analysts.md, over a layout of several clinics and months, against MathNet.Numerics over what was laid there.</summary>
public sealed partial class GuideStatementsTests : IDisposable
{
    private readonly InventedSet invented = new();

    public void Dispose() => invented.Dispose();

    [Fact]
    public void Statements_OfTheGuide_GiveTheFiguresOfTheTrials()
    {
        (string Site, int Person, int Month, double Seconds)[] laid =
            [.. from site in Enumerable.Range(0, 3) from person in Enumerable.Range(0, 4) from month in new[] { 1, 4, 8 } select ($"site-{site}", person, month, 20 + site + person - month + (person * month * 0.25))];
        invented.Write("a", laid.Select((t, i) => InventedSet.Example(
            "Observation-example-trial-completed", $"t{i}", $"{t.Site}/{t.Person}-{t.Month}/writing/left", $"2026-{t.Month:00}-02T10:00:00+01:00", t.Seconds.ToString("0.00", CultureInfo.InvariantCulture)))
            .Select((trial, i) =>
            {
                trial["subject"]!["reference"] = $"Patient/{laid[i].Site}-{laid[i].Person}";
                return trial;
            }));
        var rows = new RowSet(invented.RowsFolder);
        rows.Refresh(invented.Set, StandardViews.All)["trials"].ShouldBe(laid.Length);
        Directory.GetFiles(Path.Combine(invented.RowsFolder, "trials"), "*.parquet", SearchOption.AllDirectories).Length.ShouldBe(9);
        using var connection = rows.Open(StandardViews.All);

        var statements = Statement().Matches(File.ReadAllText(Path.Combine(PublishedFile.Root, "docs", "analysts.md"))).Select(m => m.Groups["sql"].Value).ToList();
        var answers = statements.ConvertAll(sql => Answer(connection, sql));

        answers.Count.ShouldBe(2);
        answers[0].Select(r => $"{r[0]} {r[1]} {r[2]} {r[3]}").ShouldBe(laid.Select(t => t.Site).Distinct().Select(site => $"{site} writing 8 0"));
        foreach (var row in answers[0])
        {
            var expected = MathNet.Numerics.Statistics.Statistics.MeanStandardDeviation(laid.Where(t => t.Site == (string)row[0]! && t.Month <= 6).Select(t => t.Seconds));
            ((double)row[4]!).ShouldBe(expected.Item1, 1e-9);
            ((double)row[5]!).ShouldBe(expected.Item2, 1e-9);
        }

        var changes = laid.GroupBy(t => (t.Site, t.Person)).Select(g => g.MaxBy(t => t.Month).Seconds - g.MinBy(t => t.Month).Seconds).ToList();
        var found = answers[1].ShouldHaveSingleItem();
        (found[0], Convert.ToInt32(found[1], CultureInfo.InvariantCulture)).ShouldBe(("writing", 12));
        ((double)found[2]!).ShouldBe(MathNet.Numerics.Statistics.Statistics.Mean(changes), 1e-9);
        ((double)found[3]!).ShouldBe(MathNet.Numerics.Statistics.Statistics.StandardDeviation(changes), 1e-9);
    }

    private static List<object?[]> Answer(DuckDBConnection connection, string sql)
    {
        using var answer = SqlAnswer.Ask(connection, sql);
        return [.. answer.Rows()];
    }

    [GeneratedRegex("```sql\n(?<sql>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Statement();
}
