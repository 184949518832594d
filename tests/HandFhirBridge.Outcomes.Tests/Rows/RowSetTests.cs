using System.Collections.Immutable;
using System.Globalization;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Outcomes.Views;
using Parquet;

namespace HandFhirBridge.Outcomes.Tests.Rows;

public sealed class RowSetTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 4, 1, 12, 0, 0, TimeSpan.Zero);
    private readonly InventedSet invented = new();

    public void Dispose() => invented.Dispose();

    [Fact]
    public void Refresh_OfTwoSources_LaysFilesBySiteAndMonth()
    {
        WriteTwoSources();

        var counts = new RowSet(invented.RowsFolder).Refresh(invented.Set, StandardViews.All);

        counts.ToDictionary().ShouldBe(new Dictionary<string, long> { ["conditions"] = 0, ["patients"] = 0, ["reports"] = 0, ["totals"] = 1, ["trials"] = 4 });
        Files("trials").ShouldBe(["site=north-clinic/month=2026-03", "site=north-clinic/month=2026-04", "site=south/month=2026-03"]);
    }

    [Fact]
    public void Refresh_OfUnchangedSet_WritesNothing()
    {
        WriteTwoSources();
        var rows = new RowSet(invented.RowsFolder);
        rows.Refresh(invented.Set, StandardViews.All);

        rows.Refresh(invented.Set, StandardViews.All).ShouldBeEmpty();
    }

    [Fact]
    public void Refresh_OfNothing_SaysSoAndKeepsRowsThere()
    {
        Directory.CreateDirectory(invented.RowsFolder);
        File.WriteAllText(Path.Combine(invented.RowsFolder, "kept"), "");

        Should.Throw<RowException>(() => new RowSet(invented.RowsFolder).Refresh(invented.Set, StandardViews.All)).Problem.Code.ShouldBe("HFB7101");

        File.Exists(Path.Combine(invented.RowsFolder, "kept")).ShouldBeTrue();
    }

    [Fact]
    public void Refresh_OfLineThatIsNoResource_NamesIt()
    {
        WriteTwoSources();
        File.AppendAllText(invented.Set.File("a", "Observation"), "{\"resourceType\": \"Observ\n");

        var problem = Should.Throw<RowException>(() => new RowSet(invented.RowsFolder).Refresh(invented.Set, StandardViews.All)).Problem;

        problem.Code.ShouldBe("HFB7102");
        problem.Message.ShouldContain("Line 5 of a/Observation.ndjson");
    }

    // Nothing is rounded, one resource that does not fit stops no other, and none is passed over in silence.
    [Fact]
    public void Refresh_OfResourcesThatDoNotFit_NamesThemAndKeepsTheOthers()
    {
        var twice = InventedSet.Example("Observation-example-trial-completed", "t3", "north-clinic/S-3/writing/left");
        twice["extension"]!.AsArray().Add(twice["extension"]![1]!.DeepClone());
        invented.Write(
            "a",
            InventedSet.Example("Observation-example-trial-completed", "t1"),
            InventedSet.Example("Observation-example-trial-completed", "t2", "north-clinic/S-2/writing/left", seconds: "4.20001"),
            twice);
        var rows = new RowSet(invented.RowsFolder);

        rows.Refresh(invented.Set, StandardViews.All)["trials"].ShouldBe(1);

        rows.LeftOut().Count.ShouldBe(2);
        rows.LeftOut().ShouldContain(l => l.Contains("HFB7103") && l.Contains("4.20001"));
        rows.LeftOut().ShouldContain(l => l.StartsWith("a/Observation.ndjson line 3: HFB7008") && l.Contains("Observation/t3"));
    }

    [Fact]
    public void Write_OfMoreDigitsThanTheColumn_RefusesToRound()
    {
        invented.Write("a", InventedSet.Example("Observation-example-trial-completed", "t1", seconds: "4.20001"));

        Should.Throw<RowException>(() => ParquetRows.Write(new ViewRows(invented.Set, StandardViews.Named("trials")!), invented.RowsFolder)).Problem.Code.ShouldBe("HFB7103");
    }

    [Fact]
    public void Refresh_BesideAnother_IsRefused()
    {
        WriteTwoSources();
        using var other = new FileStream(invented.RowsFolder + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);

        Should.Throw<RowException>(() => new RowSet(invented.RowsFolder).Refresh(invented.Set, StandardViews.All)).Problem.Code.ShouldBe("HFB7106");
    }

    [Fact]
    public void Open_AfterRefresh_AnswersSql()
    {
        WriteTwoSources();
        var rows = new RowSet(invented.RowsFolder);
        rows.Refresh(invented.Set, StandardViews.All);

        using var connection = rows.Open(StandardViews.All);

        Ask(connection, "SELECT source, site, session, seconds, seconds_written, day, month, comparator FROM trials ORDER BY ALL").ShouldBe(
        [
            "a|north-clinic|S-1|12.400|12.40|2026-03-02|2026-03|",
            "a|north-clinic|S-2|120.000|120|2026-04-02|2026-04|>",
            "a|north-clinic|S-3|5.000|5|2026-03-31|2026-03|",
            "b|south|S-1|7.000|7|2026-03-02|2026-03|",
        ]);
        Ask(connection, "SELECT count(*) FROM conditions").ShouldBe(["0"]);
    }

    // What is counted once when rows are made gives the figures of the rows themselves.
    [Fact]
    public void Open_AfterRefresh_SummariesAreThoseOfTheRowsThemselves()
    {
        WriteTwoSources();
        var rows = new RowSet(invented.RowsFolder);
        rows.Refresh(invented.Set, StandardViews.All);
        using var counted = rows.Open(StandardViews.All);
        using var plain = new DuckDBConnection("DataSource=:memory:");
        plain.Open();
        Ask(plain, $"CREATE TABLE trials AS SELECT * FROM read_parquet('{invented.RowsFolder}/trials/**/*.parquet', hive_partitioning = true)");
        Ask(plain, "CREATE TABLE patients (source VARCHAR, patient_key VARCHAR, gender VARCHAR, birth_date VARCHAR)");
        var question = new SummaryQuestion([SummaryDimension.Task, SummaryDimension.Site, SummaryDimension.AgeBand], ImmutableSortedDictionary<SummaryDimension, string>.Empty) { SmallestGroup = 1 };

        foreach (var asked in new[] { question, question with { By = [SummaryDimension.Hand] } })
        {
            var (ours, expected) = (Summarizer.Answer(counted, asked), Summarizer.Answer(plain, asked));

            ours.Groups.Select(Figures).ShouldBe(expected.Groups.Select(Figures));
            ours.Groups.Sum(g => g.Trials).ShouldBe(4);
            ours.Norms.ShouldBe(expected.Norms);
            ours.Sources.ShouldBe(["a", "b"]);
        }

        static string Figures(SummaryGroup g) => string.Create(
            CultureInfo.InvariantCulture, $"{string.Join(',', g.Key)} {g.Persons} {g.Trials} {g.Stopped} {g.Times} {g.Survival?.Median} {g.Z} {string.Join(';', g.Changes)}");
    }

    // The analyst's statement reads and writes nothing outside the rows.
    [Theory]
    [InlineData("COPY (SELECT 1) TO '/tmp/hfb-should-not-be.csv'")]
    [InlineData("SELECT * FROM read_text('/etc/hostname')")]
    [InlineData("SET enable_external_access = true")]
    public void Open_ForOtherFiles_Refuses(string sql)
    {
        WriteTwoSources();
        var rows = new RowSet(invented.RowsFolder);
        rows.Refresh(invented.Set, StandardViews.All);
        using var connection = rows.Open(StandardViews.All);

        Should.Throw<DuckDBException>(() => Ask(connection, sql));
    }

    // A second library reads what the embedded engine wrote.
    [Fact]
    public async Task Parquet_ReadByAnotherLibrary_HoldsTheSameRows()
    {
        WriteTwoSources();
        new RowSet(invented.RowsFolder).Refresh(invented.Set, StandardViews.All);
        var file = Directory.GetFiles(Path.Combine(invented.RowsFolder, "trials", "site=south", "month=2026-03"), "*.parquet").ShouldHaveSingleItem();

        await using var reader = await ParquetReader.CreateAsync(file, cancellationToken: TestContext.Current.CancellationToken);
        using var group = reader.OpenRowGroupReader(0);
        var fields = reader.Schema.DataFields.ToDictionary(f => f.Name);

        var seconds = new decimal?[group.RowCount];
        var written = new string[group.RowCount];
        await group.ReadAsync<decimal>(fields["seconds"], seconds, cancellationToken: TestContext.Current.CancellationToken);
        await group.ReadAsync(fields["seconds_written"], written, cancellationToken: TestContext.Current.CancellationToken);
        seconds.ShouldBe([7m]);
        written.ShouldBe(["7"]);
    }

    [Fact]
    public void Text_OfRows_KeepsDigitsAndQuotes()
    {
        object?[][] rows = [[12.40m, "a,\"b\"", null, true, -0.50m], [7m, "=1+1", 3, false, 0m]];

        Written(s => RowText.WriteCsv(["n", "t", "i", "f", "z"], rows, s)).ReplaceLineEndings("\n")
            .ShouldBe("n,t,i,f,z\n12.40,\"a,\"\"b\"\"\",,true,-0.50\n7,\"'=1+1\",3,false,0\n");
        Written(s => RowText.WriteNdjson(["n", "t", "i", "f", "z"], rows, s))
            .ShouldBe("{\"n\":12.40,\"t\":\"a,\\\"b\\\"\",\"i\":null,\"f\":true,\"z\":-0.50}\n{\"n\":7,\"t\":\"=1+1\",\"i\":3,\"f\":false,\"z\":0}\n");
    }

    // Source a holds S-1 twice (two ids), source b an older copy of S-1 of the north clinic: one row of it remains, the one changed last.
    private void WriteTwoSources()
    {
        const string completed = "Observation-example-trial-completed";
        invented.Write(
            "a",
            InventedSet.Updated(InventedSet.Example(completed, "t1", "north-clinic/S-1/card-turning/left", seconds: "11.00"), At),
            InventedSet.Updated(InventedSet.Example(completed, "t2", "north-clinic/S-1/card-turning/left", seconds: "12.40"), At.AddMinutes(1)),
            InventedSet.Example("Observation-example-trial-stopped", "t3", "north-clinic/S-2/card-turning/left", "2026-04-02T10:00:00+02:00"),
            InventedSet.Example(completed, "t4", "north-clinic/S-3/card-turning/left", "2026-03-31T23:30:00-05:00", "5"));
        invented.Write(
            "b",
            InventedSet.Updated(InventedSet.Example(completed, "t1", "north-clinic/S-1/card-turning/left", seconds: "9"), At),
            InventedSet.Example(completed, "t9", "south/S-1/card-turning/left", seconds: "7"),
            InventedSet.Example("Observation-example-total", "t10", "south/S-1/six-task-total/left"));
    }

    private List<string> Files(string view) => [.. Directory.GetFiles(Path.Combine(invented.RowsFolder, view), "*.parquet", SearchOption.AllDirectories)
        .Select(f => Path.GetRelativePath(Path.Combine(invented.RowsFolder, view), Path.GetDirectoryName(f)!).Replace('\\', '/')).Distinct().Order(StringComparer.Ordinal)];

    private static string Written(Action<TextWriter> write)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        write(text);
        return text.ToString();
    }

    private static List<string> Ask(DuckDBConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(i => reader.GetValue(i) switch
            {
                DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                DBNull => "",
                var value => Convert.ToString(value, CultureInfo.InvariantCulture),
            })));
        }

        return rows;
    }
}
