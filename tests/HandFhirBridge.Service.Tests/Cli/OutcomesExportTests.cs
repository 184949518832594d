using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>What leaves of a set of two trials of one person, one of which fits no table: it has an extension twice that holds one value.</summary>
public sealed class OutcomesExportTests : IDisposable
{
    private static readonly string[] Named = ["--recipient", "Register of the north", "--reason", "registry agreement 7"];

    private readonly DataFolder folder = new();
    private readonly string gathered;

    public OutcomesExportTests()
    {
        folder.Write("handfhirbridge.json", """{ "DataDirectory": "data" }""");
        gathered = Path.Combine(Directory.CreateDirectory(folder.File("data/outcomes/gathered/north")).FullName, "Observation.ndjson");
        var misfit = Trial("t2", "north-clinic/S-2/writing/left");
        misfit["extension"]!.AsArray().Add(misfit["extension"]![1]!.DeepClone());
        File.WriteAllLines(gathered, [Trial("t1", "north-clinic/S-1/writing/left").ToJsonString(), misfit.ToJsonString()]);
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Export_OfAResourceThatDoesNotFit_GivesTheOthersAndCountsIt()
    {
        var run = await RunAsync("export", "leaves");

        run.ExitCode.ShouldBe(1, run.Output + run.Error);
        File.ReadAllLines(folder.File("leaves/trials.csv")).Length.ShouldBe(1 + 1);
        run.Error.ShouldContain("left out: north/Observation.ndjson line 2: HFB7008");
        ((int)JsonNode.Parse(await File.ReadAllTextAsync(folder.File("leaves/removed.json"), TestContext.Current.CancellationToken))!["leftOut"]!).ShouldBe(1);
        Events().ShouldBeEmpty();
    }

    [Fact]
    public async Task Summary_OfAResourceThatDoesNotFit_SaysHowMany()
    {
        var text = await RunAsync("summary", "--smallest-group", "1");
        var json = await RunAsync("summary", "--format", "json");

        ((int)JsonNode.Parse(json.Output)!["leftOut"]!).ShouldBe(1);
        text.Output.ShouldContain("1 gathered resource does not fit the tables and is in no figure");
        // Nothing is written roughly where nothing is held back, and there is no change where there is one visit.
        text.Output.ShouldNotContain("A count of 1");
        text.Output.ShouldNotContain("effect_size");
        text.Output.ShouldNotContain("Change is from");
        (await RunAsync("summary", "--smallest-group", "2")).Output.ShouldContain("A count of 1 within a group is written <2");
    }

    [Theory]
    [InlineData]
    [InlineData("--identified", "--recipient", "Register", "--reason", "agreement")]
    public async Task Export_ThatFails_LeavesNoFolder(params string[] options)
    {
        await File.AppendAllTextAsync(gathered, "{\"resourceType\": \"Observ\n", TestContext.Current.CancellationToken);

        var run = await RunAsync(["export", "leaves", .. options]);

        run.ExitCode.ShouldBe(1);
        run.Error.ShouldStartWith("HFB7102");
        Directory.GetDirectories(folder.Path).Select(Path.GetFileName).ShouldBe(["data"]);
        Events().ShouldBeEmpty();
    }

    // Date, who got it, what and what for: 45 CFR 164.528(b)(2).
    [Fact]
    public async Task Export_Identified_KeepsWhoTookWhatForWhom()
    {
        var run = await RunAsync(["export", "leaves", "--identified", .. Named]);

        run.ExitCode.ShouldBe(1, run.Output + run.Error); // one does not fit
        File.ReadAllText(folder.File("leaves/trials.csv")).ShouldContain("Patient/p1");
        run.Output.ShouldContain("protected health information");
        var left = Events().ShouldHaveSingleItem();
        (left.Type.System, left.Type.Code).ShouldBe(("http://dicom.nema.org/resources/ontology/DCM", "110106"));
        left.Agent.Select(a => (a.Who?.Identifier?.Value, a.Name, a.Requestor)).ShouldBe([(Environment.UserName, null, true), (null, "Register of the north", false)]);
        left.PurposeOfEvent.Single().Text.ShouldBe("registry agreement 7");
        left.Entity[0].Name.ShouldBe("outcomes export --identified");
        left.Entity[0].Detail.Select(d => $"{d.Type} {d.Value}").ShouldBe(["conditions 0", "patients 0", "reports 0", "totals 0", "trials 1"]);
    }

    [Theory]
    [InlineData("--identified")]
    [InlineData("--identified", "--recipient", "Register")]
    [InlineData("--identified", "--recipient", "Register", "--reason", " ")]
    [InlineData("--identified", "--recipient", "Register", "--reason", "agreement", "--dates", "year")]
    [InlineData("--reason", "agreement")]
    public async Task Export_WhoseWordsDoNotFit_IsRefused(params string[] options)
    {
        var run = await RunAsync(["export", "leaves", .. options]);

        (run.ExitCode, run.Output).ShouldBe((2, ""));
        run.Error.ShouldContain("--identified");
        Directory.Exists(folder.File("leaves")).ShouldBeFalse();
        Events().ShouldBeEmpty();
    }

    [Fact]
    public async Task SqlAndRows_OfSinglePersons_KeepWhatWasAskedAndHowMuchWasGiven()
    {
        const string statement = "SELECT patient_key FROM trials WHERE task = 'writing'";

        (await RunAsync("sql", statement)).ExitCode.ShouldBe(0);
        (await RunAsync("rows", "trials")).ExitCode.ShouldBe(1);
        (await RunAsync("rows", "trials", "--parquet", "files")).ExitCode.ShouldBe(2);
        (await RunAsync("rows", "trials", "--parquet", "files", "--reason", "monthly figures")).ExitCode.ShouldBe(1);

        var events = Events();
        // Each before anything is shown, and again with the number of rows.
        events.Select(e => $"{e.Agent.Single().Who!.Identifier!.Value} {e.Entity[0].Name}: {System.Text.Encoding.UTF8.GetString(e.Entity[1].Query!)} {string.Concat(e.Entity[0].Detail.Select(d => $"{d.Value} {d.Type}"))}".TrimEnd()).Order(StringComparer.Ordinal).ShouldBe(
            new[]
            {
                "outcomes rows: trials", "outcomes rows: trials", "outcomes rows: trials 1 trials", "outcomes rows: trials 1 trials",
                $"outcomes sql: {statement}", $"outcomes sql: {statement} 1 rows",
            }.Select(e => $"{Environment.UserName} {e}"));
        events.SelectMany(e => e.PurposeOfEvent).Select(p => p.Text).ShouldBe(["monthly figures", "monthly figures"]);
    }

    private static JsonNode Trial(string id, string identifier)
    {
        var trial = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "profiles", "package", "example", "Observation-example-trial-completed.json")))!;
        (trial["id"], trial["identifier"]![0]!["value"], trial["subject"]) = (id, identifier, new JsonObject { ["reference"] = "Patient/p1" });
        return trial;
    }

    private Task<CommandRun> RunAsync(params string[] words) => CommandRun.StartAsync(folder.Path, ["outcomes", .. words]);

    private List<AuditEvent> Events() => Directory.Exists(folder.File("data/audit"))
        ? [.. Directory.GetFiles(folder.File("data/audit")).SelectMany(File.ReadAllLines).Select(FhirJsonDeserializer.STRICT.Deserialize<AuditEvent>)]
        : [];
}
