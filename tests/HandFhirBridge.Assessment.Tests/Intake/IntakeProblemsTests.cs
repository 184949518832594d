using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Tests.Intake;

public sealed partial class IntakeProblemsTests
{
    // FHIR R4 value set http://hl7.org/fhir/ValueSet/issue-type, read from https://hl7.org/fhir/R4/valueset-issue-type.html.
    private static readonly string[] IssueTypes =
    [
        "invalid", "structure", "required", "value", "invariant", "security", "login", "unknown", "expired", "forbidden", "suppressed", "processing",
        "not-supported", "duplicate", "multiple-matches", "not-found", "deleted", "too-long", "code-invalid", "extension", "too-costly", "business-rule",
        "conflict", "transient", "lock-error", "no-store", "exception", "timeout", "incomplete", "throttled", "informational",
    ];

    public static TheoryData<string> Codes => [.. IntakeProblems.All.Select(k => k.Code)];

    [Fact]
    public void All_Codes_AreUniqueAndBelongToIntake()
    {
        IntakeProblems.All.Select(k => k.Code).ShouldBeUnique();
        IntakeProblems.All.ShouldAllBe(k => IntakeCode().IsMatch(k.Code));
        IntakeProblems.All.ShouldAllBe(k => IssueTypes.Contains(k.IssueType));
    }

    [Theory, MemberData(nameof(Codes))]
    public void All_Kind_StandsInTheDocumentation(string code)
    {
        var kind = IntakeProblems.All.Single(k => k.Code == code);

        File.ReadLines(Path.Combine(Examples.Root, "docs", "errors.md")).ShouldContain(
            $"| {kind.Code} | {kind.Severity.ToString().ToLowerInvariant()} | {kind.HttpStatus} | {kind.Title} | {kind.Remedy} |");
    }

    // The tests named run every row of the fault table and every bad example; whatever stands there is reached.
    [Theory, MemberData(nameof(Codes))]
    public void All_Kind_IsReachedByATest(string code)
    {
        var reached = Directory.EnumerateFiles(Path.Combine(Examples.Folder, "bad"), "*.expected.txt").Select(f => File.ReadLines(f).First())
            .Concat(FaultTable.Rows.Concat(FaultTable.Remarks).Select(r => r.Data.Item1))
            .Concat(Quoted("HandFhirBridge.Assessment.Tests/Intake/SessionReaderTests.cs"))
            .Concat(Quoted("HandFhirBridge.Service.Tests/Intake/SessionSourcesTests.cs"))
            .Concat(Quoted("HandFhirBridge.Service.Tests/Intake/CsvSourceTests.cs"));

        reached.ShouldContain(code);
    }

    private static IEnumerable<string> Quoted(string test) =>
        QuotedCode().Matches(File.ReadAllText(Path.Combine(Examples.Root, "tests", test))).Select(m => m.Groups[1].Value);

    [GeneratedRegex("^HFB1[0-9]{3}$")]
    private static partial Regex IntakeCode();

    [GeneratedRegex("\"(HFB1[0-9]{3})\"")]
    private static partial Regex QuotedCode();
}
