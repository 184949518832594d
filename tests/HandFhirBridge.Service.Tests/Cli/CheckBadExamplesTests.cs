using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>The program names every fault of examples/bad as the file beside it says: once for a script, once for a person.</summary>
public sealed class CheckBadExamplesTests(CheckBadExamplesTests.Runs runs) : IClassFixture<CheckBadExamplesTests.Runs>
{
    private static string Folder => Repository.Example("bad");

    public static TheoryData<string> Files => [.. Directory.EnumerateFiles(Folder)
        .Where(f => !f.EndsWith(".expected.txt", StringComparison.Ordinal)).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void Check_BadExamples_EndsWithFindings()
    {
        runs.Json.ExitCode.ShouldBe(1, runs.Json.Error);
        runs.Text.ExitCode.ShouldBe(1, runs.Text.Error);
        runs.Json.Error.ShouldBeEmpty();
        runs.Text.Error.ShouldBeEmpty();
    }

    [Theory, MemberData(nameof(Files))]
    public void Check_BadExampleAsJson_NamesItsFaultAlone(string file)
    {
        var errors = runs.Lines
            .SelectMany(line => line["problems"]!.AsArray())
            .Where(p => Path.GetFileName((string?)p!["source"]) == file && (string?)p["severity"] == "error")
            .Select(p => Written(p!));

        string.Concat(errors).ShouldBe(Expected(file));
    }

    [Theory, MemberData(nameof(Files))]
    public void Check_BadExampleAsText_SaysFaultAndRemedyOnOneLine(string file)
    {
        var (code, sentence) = Expected(file).Split('\n') is [var first, _, var last, ""] ? (first, last) : throw new InvalidDataException(file);

        var lines = runs.Text.Output.Split('\n').Where(l => l.EndsWith(sentence, StringComparison.Ordinal) && l.Contains($" {code} error", StringComparison.Ordinal));

        lines.ShouldHaveSingleItem().ShouldContain(file);
    }

    private static string Expected(string file) =>
        File.ReadAllText(Path.Combine(Folder, Path.ChangeExtension(file, null) + ".expected.txt"));

    private static string Written(JsonNode problem)
    {
        var line = problem["line"] is { } number ? $"line {number}" : null;
        var column = problem["column"] is { } name ? $", column {name}" : null;
        var place = $"{line}{column} {problem["location"]}".Trim();
        return $"{problem["code"]}\n{(place.Length == 0 ? "the whole document" : place)}\n{problem["message"]} {problem["remedy"]}\n";
    }

    /// <summary>Both runs of the program, once for the class.</summary>
    public sealed class Runs : IAsyncLifetime
    {
        private readonly DataFolder folder = new();

        internal CommandRun Json { get; private set; } = null!;

        internal CommandRun Text { get; private set; } = null!;

        public IReadOnlyList<JsonNode> Lines { get; private set; } = [];

        public async ValueTask InitializeAsync()
        {
            Json = await CommandRun.StartAsync(folder.Path, "check", Folder, "--format", "json");
            Text = await CommandRun.StartAsync(folder.Path, "check", Folder);
            Lines = Json.JsonLines();
        }

        public ValueTask DisposeAsync()
        {
            folder.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
