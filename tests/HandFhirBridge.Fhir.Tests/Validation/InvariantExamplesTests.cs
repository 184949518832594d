using System.Text.Json;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>Each invariant of the profiles with the example that keeps it and the one that breaks it.</summary>
public sealed class InvariantExamplesTests
{
    private static readonly string Checks = Path.Combine(Repository.Root, "profiles", "checks");

    public static TheoryData<string, string, bool> Examples
    {
        get
        {
            using var index = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Checks, "index.json")));
            return
            [
                .. index.RootElement.EnumerateArray().Select(example => new TheoryDataRow<string, string, bool>(
                    Text(example, "file"), Text(example, "invariant"), Text(example, "expect") == "passes")),
            ];
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void ValidateJson_ExampleOfInvariant_BreaksItOrNothing(string file, string invariant, bool passes)
    {
        var problems = SessionValidator.Shared.ValidateJson(File.ReadAllBytes(Path.Combine(Checks, file)));

        var own = problems.Where(problem => problem.Message.Contains("constraint hfb-", StringComparison.Ordinal)).ToList();
        if (passes)
        {
            problems.Where(problem => problem.Severity == Assessment.Problems.Severity.Error).ShouldBeEmpty();
        }
        else
        {
            own.ShouldHaveSingleItem().Message.ShouldContain($"constraint {invariant} ");
            own[0].Kind.ShouldBe(ValidationProblems.RuleBroken);
        }
    }

    private static string Text(JsonElement example, string name) => example.GetProperty(name).GetString()!;
}
