using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Intake;

namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>Every file of examples/bad is wrong in one way, and says beside it what the answer must be.</summary>
public sealed class BadExamplesTests
{
    private static string Folder => Path.Combine(Sources.Examples, "bad");

    public static TheoryData<string> Files => [.. Directory.EnumerateFiles(Folder)
        .Where(f => !f.EndsWith(".expected.txt", StringComparison.Ordinal)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void Folder_Holds_AtLeast25Files() => Files.Count.ShouldBeGreaterThanOrEqualTo(25);

    [Theory, MemberData(nameof(Files))]
    public async Task Read_BadExample_SaysExactlyWhatIsExpected(string file)
    {
        var items = await Sources.ReadAsync(Path.Combine(Folder, file));

        var errors = items.SelectMany(i => i.Outcome.Problems).Where(p => p.Severity == Severity.Error).Select(Written).ToArray();
        var expected = Path.Combine(Folder, Path.ChangeExtension(file, null) + ".expected.txt");
        string.Concat(errors).ShouldBe(await File.ReadAllTextAsync(expected, TestContext.Current.CancellationToken));
        errors.ShouldHaveSingleItem();
        items.Count(i => !i.Outcome.Succeeded).ShouldBe(1);
    }

    private static string Written(Problem problem) =>
        $"{problem.Code}\n{Where(problem)}\n{problem.Message} {problem.Remedy}\n";

    private static string Where(Problem problem)
    {
        var place = problem.Place!;
        var row = place.Line is null ? "" : $"line {place.Line}{(place.Column is null ? "" : $", column {place.Column}")} ";
        return row.Length + problem.Location.Length == 0 ? "the whole document" : $"{row}{problem.Location}".TrimEnd();
    }
}
