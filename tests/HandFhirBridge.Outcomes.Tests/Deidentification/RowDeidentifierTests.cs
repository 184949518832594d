using System.Text.Json;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Tests.Rows;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Tests.Deidentification;

/// <summary>Rows of our views.</summary>
public sealed class RowDeidentifierTests : IDisposable
{
    private readonly InventedSet set = new();
    private readonly Keys keys = new();
    private readonly RemovalReport report = new();

    public RowDeidentifierTests() => set.Write(
        "north-server", InventedSet.Example("Observation-example-trial-completed", "t1", "north-clinic/S-1/card-turning/left", "2026-03-02T09:05:00+01:00", "12.40"));

    public void Dispose()
    {
        set.Dispose();
        keys.Dispose();
    }

    [Fact]
    public void Row_Trial_HasNoKeyPlaceOrDay()
    {
        var text = string.Join('\n', Rows("trials", set.Set).Select(r => string.Join(';', r.Values)));
        foreach (var telling in new[] { "north", "S-1", "t1", "p1", "2026-03", "09:05" })
        {
            text.Split(';', '\n').ShouldNotContain(telling);
            text.ShouldNotContain(telling, Case.Sensitive);
        }

        text.ShouldContain("12.40");
        text.ShouldContain("card-turning");
    }

    /// <summary>Whoever removes identities first and runs the view then gets the pseudonyms of whoever does it the other way round.</summary>
    [Theory]
    [InlineData("patient_key")]
    [InlineData("trial_key")]
    [InlineData("site")]
    [InlineData("session")]
    [InlineData("task")]
    [InlineData("seconds")]
    [InlineData("z")]
    [InlineData("norm_set")]
    [InlineData("norm_sex")]
    [InlineData("outcome")]
    [InlineData("hand_role")]
    [InlineData("started")]
    public void Row_Trial_IsThatOfTheViewOverTheResource(string column)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(set.Set.File("north-server", "Observation")));
        var resource = new ResourceDeidentifier(keys.Options(), report).Resource("north-server", document.RootElement)!;
        // The day is cut out of a date that has one; a year has none.
        using var other = new InventedSet();
        other.Write("x", System.Text.Json.Nodes.JsonNode.Parse(resource.Replace("\"effectiveDateTime\":\"2026\"", "\"effectiveDateTime\":\"2026-01-01\"", StringComparison.Ordinal))!);
        var raw = new ViewRows(other.Set, StandardViews.Named("trials")!);
        var expected = raw.Read().Single()[raw.Columns.Select(c => c.Name).ToList().IndexOf(column)];
        Convert.ToString(Rows("trials", set.Set).Single()[column], System.Globalization.CultureInfo.InvariantCulture)
            .ShouldBe(column == "started" ? "2026" : Convert.ToString(expected, System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Row_ColumnNobodyKnows_IsLeftOutAndCounted()
    {
        var rows = new RowDeidentifier(keys.Options(), report, ["source", "task", "free_words"]);
        rows.Columns.ShouldBe(["source", "task"]);
        rows.Row(["north", "writing", "Musterfrau"]).ShouldNotContain("Musterfrau");
        rows.Row(["north", "of Musterfrau", null])[1].ShouldBeNull(); // more than one word is no code
        report.Removed[SafeHarborRule.ROther].ShouldBe(4);
    }

    [Fact]
    public void Row_Patient_OlderThan89IsOneCategory()
    {
        var rows = new RowDeidentifier(keys.Options(), report, ["source", "patient_key", "birth_date"]);
        rows.Row(["north", "Patient/p1", "1930-01-01"])[2].ShouldBe("90+");
        rows.Row(["north", "Patient/p1", "1950-05-05"])[2].ShouldBe("1950");
    }

    [Fact]
    public void Row_Shifted_IsMovedAsTheResourceIs()
    {
        using var document = JsonDocument.Parse(File.ReadAllText(set.Set.File("north-server", "Observation")));
        using var resource = JsonDocument.Parse(new ResourceDeidentifier(keys.Options(DateRule.Shifted), report).Resource("north-server", document.RootElement)!);
        new RowDeidentifier(keys.Options(DateRule.Shifted), report, ["source", "patient_key", "day"]).Row(["north-server", "Patient/p1", new DateOnly(2026, 3, 2)])[2]
            .ShouldBe(resource.RootElement.GetProperty("effectiveDateTime").GetString());
    }

    [Theory]
    [InlineData("http://snomed.info/sct", "57406009", "57406009")]
    [InlineData("https://clinic.example/codes", "QUINT", null)]
    public void Row_Condition_KeepsCodesOfCommonSystemsAlone(string system, string code, string? left)
    {
        var row = new RowDeidentifier(keys.Options(), report, ["source", "system", "code"]).Row(["north", system, code]);
        row[1].ShouldBe(left is null ? null : system);
        row[2].ShouldBe(left);
    }

    private List<Dictionary<string, object?>> Rows(string view, GatheredSet of)
    {
        var raw = new ViewRows(of, StandardViews.Named(view)!);
        var rows = new RowDeidentifier(keys.Options(), report, [.. raw.Columns.Select(c => c.Name)]);
        return [.. raw.Read().Select(r => rows.Columns.Zip(rows.Row(r)).ToDictionary(p => p.First, p => p.Second))];
    }
}
