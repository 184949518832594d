using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>The first command a newcomer runs.</summary>
public sealed class DemoTests
{
    [Fact]
    public async Task Demo_OnceAsJson_PrintsOneObjectWithTheCountsOfTheExamples()
    {
        using var folder = new DataFolder();
        var sessions = Clinic.ExampleSessions.Select(f => JsonNode.Parse(File.ReadAllText(f))!).ToList();
        var uncounted = sessions.SelectMany(s => s["trials"]!.AsArray()).Count(t => (bool?)t!["counted"] == false);

        var run = await CommandRun.StartAsync(folder.Path, "demo", "--once", "--json");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Error.ShouldBeEmpty();
        var result = run.JsonLines().ShouldHaveSingleItem().AsObject();
        result.Select(m => m.Key).ShouldBe(["accepted", "delivered", "held", "rejected", "resources", "elapsedMs"]);
        sessions.Count.ShouldBeGreaterThanOrEqualTo(24);
        ((int)result["accepted"]!).ShouldBe(sessions.Count);
        ((int)result["delivered"]!).ShouldBe(sessions.Count);
        ((int)result["held"]!).ShouldBe(0);
        ((int)result["rejected"]!).ShouldBe(0);
        ((int)result["elapsedMs"]!).ShouldBeGreaterThan(0);
        var resources = result["resources"]!;
        ((int)resources["DiagnosticReport"]!).ShouldBe(sessions.Count);
        ((int)resources["QuestionnaireResponse"]!).ShouldBe(sessions.Count);
        ((int)resources["Provenance"]!).ShouldBe(sessions.Count);
        // A session makes 14 trials, 4 totals, 2 panels and the handedness, and one more of each attempt that does not count.
        ((int)resources["Observation"]!).ShouldBe((21 * sessions.Count) + uncounted);
        ((int)resources["Patient"]!).ShouldBe(sessions.Select(s => (string)s["patient"]!["identifier"]!["value"]!).Distinct().Count());
        Directory.EnumerateFileSystemEntries(folder.Path).ShouldBeEmpty("the demonstration leaves nothing behind");
    }

    [Fact]
    public async Task Demo_Once_PrintsATableForEveryPatientMarkedAsDemonstration()
    {
        using var folder = new DataFolder();

        var run = await CommandRun.StartAsync(folder.Path, "demo", "--once");

        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Error.ShouldBeEmpty();
        run.Output.ShouldNotContain('\r');
        run.Output.ShouldNotContain('\u001b');
        var patients = Clinic.ExampleSessions.Select(f => (string)JsonNode.Parse(File.ReadAllText(f))!["patient"]!["identifier"]!["value"]!).Distinct();
        foreach (var patient in patients)
        {
            run.Output.ShouldContain($"Patient {patient},");
        }

        // Brackwater's third visit is the last one; the arithmetic of the first is in HandCalculationTests.
        run.Output.ShouldContain("DEMONSTRATION");
        run.Output.ShouldContain("SLOW (beyond 2 SD)");
        run.Output.ShouldContain("never replaces the judgement of a licensed clinician");
    }
}
