using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;
using static HandFhirBridge.Assessment.Tests.Norms.Entries;

namespace HandFhirBridge.Assessment.Tests.Norms;

public sealed class NormEntryReaderTests
{
    /// <summary>Each table is wrong in one way: code, line and column.</summary>
    public static TheoryData<string, string, long, string?> Faults => new()
    {
        { $"task,hand,sex,age_min,age_max,n,mean\n", "HFB2011", 1, "sd" },
        { "", "HFB2011", 1, "task" },
        { $"{Header},evidence\n{Line},recalled", "HFB2013", 1, "evidence" },
        { $"{Header},sd\n{Line},3.1", "HFB2013", 1, "sd" },
        { $"{Header}\n{Line},7", "HFB2012", 2, null },
        { $"{Header}\nwriting,dominant", "HFB2012", 2, null },
        { $"{Header}\n\"writing,dominant,female,20,59,30,12.5,3.1\n{Line}", "HFB2012", 2, null },
        { $"{Header}\n{Line.Replace("writing", "knitting")}", "HFB2001", 2, "task" },
        { $"{Header}\n{Line}\n{Line.Replace("female", "Female").Replace("20,59", "60,94")}", "HFB2010", 3, "sex" },
        { $"{Header}\n{Line.Replace("female", "unknown")}", "HFB2010", 2, "sex" },
        { $"{Header}\n{Line.Replace("dominant", "right")}", "HFB2010", 2, "hand" },
        { $"{Header}\n{Line.Replace("20", "twenty")}", "HFB2010", 2, "age_min" },
        { $"{Header}\n{Line.Replace("20", "20.5")}", "HFB2010", 2, "age_min" },
        { $"{Header}\n{Line.Replace("12.5", "\"12,5\"")}", "HFB2010", 2, "mean" },
        { $"{Header}\n{Line.Replace("12.5", "-12.5")}", "HFB2010", 2, "mean" },
        { $"{Header}\n{Line.Replace("12.5", "1e1")}", "HFB2010", 2, "mean" },
        { $"{Header}\n{Line.Replace("12.5", "")}", "HFB2010", 2, "mean" },
        { $"{Header}\n{Line.Replace("3.1", "")}", "HFB2010", 2, "sd" },
        { $"{Header}\n{Line.Replace("12.5", "0")}", "HFB2002", 2, "mean" },
        { $"{Header}\n{Line.Replace("12.5", "601")}", "HFB2002", 2, "mean" },
        { $"{Header}\n{Line.Replace("3.1", "0.0")}", "HFB2003", 2, "sd" },
        { $"{Header}\n{Line.Replace("3.1", "31")}", "HFB2003", 2, "sd" },
        { $"{Header}\n{Line.Replace("20,59", "59,20")}", "HFB2004", 2, "age_min" },
        { $"{Header}\n{Line.Replace("20,59", "20,121")}", "HFB2004", 2, "age_min" },
        { $"{Header}\n{Line}\n{Line.Replace("20,59", "59,94")}", "HFB2005", 3, "age_min" },
        { $"{Header}\n{Line}\n{Line}", "HFB2005", 3, "age_min" },
        { $"{Header}\n{Line.Replace("30", "1")}", "HFB2016", 2, "n" },
        { $"{Header}\n", "HFB2006", 0, null },
        { $"{Header},min,max\n{Line},13,30", "HFB2017", 2, "min" },
        { $"{Header},min,max\n{Line},,12.0", "HFB2017", 2, "max" },
        { $"{Header},min,max\n{Line},10.0,15.0", "HFB2017", 2, "min" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Read_OneFault_NamesCodeLineAndColumn(string table, string code, long line, string? column)
    {
        var outcome = Read(table);

        outcome.Value.ShouldBeNull();
        var problem = outcome.Problems[0];
        problem.Code.ShouldBe(code);
        problem.Place.ShouldNotBeNull().Source.ShouldBe("own.csv");
        (problem.Place!.Line ?? 0).ShouldBe(line);
        problem.Place.Column.ShouldBe(column);
        problem.Remedy.ShouldNotBeEmpty();
    }

    [Fact]
    public void Read_SeveralFaults_NamesThemAll()
    {
        var problems = Read($"{Header}\n{Line.Replace("12.5", "x").Replace("dominant", "left")}\n{Line.Replace("3.1", "0")}").Problems;

        problems.Select(p => (p.Place!.Line, p.Place.Column)).ShouldBe([(2, "hand"), (2, "mean"), (3, "sd")]);
    }

    [Fact]
    public void Read_MisspeltColumn_NamesTheOneMeant() =>
        Read("task,hand,sex,age_min,age_max,n,meen,sd\n").Problems[0].Remedy.ShouldBe("Did you mean \"mean\"?");

    [Fact]
    public void Read_NotUtf8_NamesTheRow()
    {
        var problem = Read(Encoding.Latin1.GetBytes($"{Header}\n{Line.Replace("writing", "wr\u00efting")}")).Problems.ShouldHaveSingleItem();

        problem.Code.ShouldBe("HFB2012");
        problem.Place!.Line.ShouldBe(2);
    }

    [Fact]
    public void Read_RowWithoutEnd_StopsThere() =>
        Read($"{Header}\n{Line}\n{new string('x', 100_000)}").Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB2012");

    [Theory]
    [InlineData("task,hand,sex,age_min,age_max,n,mean,sd\r\nwriting,dominant,female,20,59,30,12.5,3.1\r\n")]
    [InlineData("\ufefftask,hand,sex,age_min,age_max,n,mean,sd\nwriting,dominant,female,20,59,30,12.5,3.1")]
    [InlineData("task;hand;sex;age_min;age_max;n;mean;sd\nwriting;dominant;female;20;59;30;12,5;3,1")]
    [InlineData("task\thand\tsex\tage_min\tage_max\tn\tmean\tsd\nwriting\tdominant\tfemale\t20\t59\t30\t12.5\t3.1")]
    [InlineData("sd,mean,n,age_max,age_min,sex,hand,task\n3.1,12.5,30,59,20,female,dominant,writing\n\n")]
    [InlineData("task,hand,sex,age_min,age_max,n,mean,sd\n\"writing\", dominant ,female,20,59,30,12.5,3.1")]
    public void Read_FormsOfATable_GiveTheSameRow(string table) => Read(table).Value.ShouldNotBeNull().Rows.ShouldBe([Row]);

    [Fact]
    public void Read_Digits_AreKept() => Read($"{Header}\n{Line.Replace("12.5", "12.50")}").Value!.Rows[0].Mean.ToString(CultureInfo.InvariantCulture).ShouldBe("12.50");

    [Fact]
    public void Read_CellThatTheSourceLeavesEmpty_DoesNotExist()
    {
        var entry = Read($"{Header}\n{Line}\nstacking-checkers,dominant,female,20,59,30,,\nwriting,non-dominant,female,20,59,,30.2,8.6").Value.ShouldNotBeNull();

        entry.Rows.Select(r => (r.Task, r.Role, r.N)).ShouldBe([("writing", HandRole.Dominant, 30), ("writing", HandRole.NonDominant, null)]);
    }

    [Fact]
    public void Read_Range_IsKeptWithTheRow()
    {
        var row = Read($"{Header},min,max\n{Line},7.9,24").Value.ShouldNotBeNull().Rows.ShouldHaveSingleItem();

        (row.Minimum, row.Maximum).ShouldBe((7.9m, 24m));
    }

    [Fact]
    public void Problems_EveryKind_IsReachedByATestOfThisFolder()
    {
        string[] reached = [.. Faults.Select(f => f.Data.Item2), .. NormEntryComparisonTests.Faults.Select(f => f.Data.Item1)];

        NormProblems.All.Select(k => k.Code).ShouldBeSubsetOf(reached);
        NormProblems.All.Select(k => k.Code).ShouldBeUnique();
    }

    [Fact]
    public void Problems_EveryKind_IsDocumented()
    {
        var page = File.ReadAllText(Path.Combine(Repository(), "docs", "norms.md"));

        NormProblems.All.ShouldAllBe(kind => page.Contains(kind.Code));
        NormEntryReader.RequiredColumns.AddRange(NormEntryReader.OptionalColumns).ShouldAllBe(column => page.Contains($"`{column}`"));
    }

    private static string Repository([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../.."));
}
