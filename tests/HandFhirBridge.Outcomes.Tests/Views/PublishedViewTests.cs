using System.Text.Json;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>Every case of the published test files, and the report of them that is kept in docs.</summary>
public sealed class PublishedViewTests
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static string ReportPath => Path.Combine(PublishedFile.Root, "docs", "sql-on-fhir-report.json");

    public static TheoryData<string, string> Cases
    {
        get
        {
            var cases = new TheoryData<string, string>();
            foreach (var file in PublishedFile.Names)
            {
                foreach (var test in PublishedFile.Cases(file))
                {
                    cases.Add(file, test.GetProperty("title").GetString()!);
                }
            }

            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Rows_OfPublishedCase_AreThoseExpected(string file, string title)
    {
        var failures = PublishedFile.Cases(file).Where(t => t.GetProperty("title").GetString() == title)
            .Select(t => PublishedCase.Failure(PublishedFile.Read(file), t)).OfType<string>();

        failures.ShouldBeEmpty();
    }

    [Fact]
    public void Cases_OfAllFiles_AreAllThere() => (PublishedFile.Names.Count, Cases.Count).ShouldBe((16, 83));

    // Format: test_report/test-report.schema.json of FHIR/sql-on-fhir-v2. With HFB_SQL_ON_FHIR_REPORT set, the report is written anew.
    [Fact]
    public void Report_InDocs_IsWhatTheRunnerDoes()
    {
        var report = PublishedFile.Names.ToDictionary(name => name, name => new
        {
            tests = PublishedFile.Cases(name).Select(test => new
            {
                name = test.GetProperty("title").GetString(),
                result = new { passed = PublishedCase.Failure(PublishedFile.Read(name), test) is null },
            }),
        });
        var text = JsonSerializer.Serialize(report, Indented) + "\n";
        if (Environment.GetEnvironmentVariable("HFB_SQL_ON_FHIR_REPORT") is not null)
        {
            File.WriteAllText(ReportPath, text);
        }

        File.ReadAllText(ReportPath).ReplaceLineEndings("\n").ShouldBe(text.ReplaceLineEndings("\n"));
    }
}
