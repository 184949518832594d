namespace HandFhirBridge.Outcomes.Tests.Gather;

/// <summary>Gathering by export, against the flow of FHIR Bulk Data Access 2.0 ("Bulk Data Kick-off Request", "Status Request", "Output File Request", "Delete Request").</summary>
public sealed class ExportGatherTests
{
    private const string Status = "/fhir/status/7";
    private const string First = "/fhir/files/1";
    private const string Second = "/fhir/files/2";

    [Fact]
    public async Task Gather_OfExport_PollsReadsFilesAndHasItRemoved()
    {
        using var scene = Offered();
        scene.Server.On(Status, "", 202, ("Retry-After", "120"), ("X-Progress", "40 %")).On(Status, Manifest("false", ("Observation", First), ("Patient", Second), ("Encounter", "/fhir/files/3")))
            .On(First, Lines(Scene.Trial("t1"), """{"resourceType": "Observation", "id": "bp"}""", Scene.Trial("t2"), Scene.Trial("dominance", category: "d445")))
            .On(Second, Lines(Scene.Patient("p1"), Scene.Patient("p9")));

        var result = await scene.OneAsync();

        result.Problem.ShouldBeNull();
        (result.Method, result.Held["Observation"], result.Held["Patient"]).ShouldBe(("export", 2, 1));
        scene.Held("Patient").ShouldHaveSingleItem().ShouldContain("\"p1\"");
        scene.Server.Asked.ShouldContain($"DELETE {Status}");
        scene.Server.Asked.ShouldNotContain("/fhir/files/3");
    }

    [Fact]
    public async Task Gather_ByExportAgain_AsksSinceAndTakesDeletions()
    {
        using var scene = Offered();
        scene.Server.On(Status, Manifest("false", ("Observation", First), ("Patient", Second))).On(First, Lines(Scene.Trial("t1"), Scene.Trial("t2"))).On(Second, Lines(Scene.Patient("p1")));
        await scene.OneAsync();
        scene.Server.On(Scene.Export + "&_since=2026-04-01T11:58:00.000Z", "", 202, ("Content-Location", "https://north.example/fhir/status/8"))
            .On("/fhir/status/8", $$"""{"transactionTime": "2026-04-02T12:00:00Z", "requiresAccessToken": false, "output": [{"type": "Observation", "url": "https://north.example/fhir/files/8"}], "deleted": [{"type": "Bundle", "url": "https://north.example/fhir/files/9"}]}""")
            .On("/fhir/files/8", Lines(Scene.Trial("t3", patient: "p2")))
            .On("/fhir/files/9", Lines("""{"resourceType": "Bundle", "type": "transaction", "entry": [{"request": {"method": "DELETE", "url": "Observation/t1"}}]}"""))
            .On("/fhir/Patient?_id=p2&_count=30", Scene.Bundle(Scene.Patient("p2"))).On("/fhir/Condition?patient=p2&_count=200", Scene.Bundle());

        var result = await scene.OneAsync();

        result.Problem.ShouldBeNull();
        scene.Held("Observation").Count.ShouldBe(2);
        scene.Held("Observation").ShouldAllBe(l => !l.Contains("\"t1\""));
        // p2 had not changed since, so the export of changes did not bring it.
        scene.Held("Patient").Count.ShouldBe(2);
    }

    [Fact]
    public async Task Gather_AfterFailureOfAFile_ReadsTheRestOfTheSameExport()
    {
        using var scene = Offered();
        scene.Server.On(Status, Manifest("false", ("Observation", First), ("Patient", Second))).On(First, Lines(Scene.Trial("t1"))).On(Second, "", 503);
        var failed = await scene.OneAsync();
        scene.Server.Asked.Clear();
        scene.Server.Forget(Second).On(Second, Lines(Scene.Patient("p1")));

        var result = await scene.OneAsync();

        failed.Problem!.Code.ShouldBe("HFB7201");
        (result.Problem, result.Held["Observation"], result.Held["Patient"]).ShouldBe((null, 1, 1));
        scene.Server.Asked.ShouldNotContain(Scene.Export);
        scene.Server.Asked.ShouldNotContain(First);
    }

    [Fact]
    public async Task Gather_OfExportThatExpired_BeginsAnother()
    {
        using var scene = Offered();
        scene.Server.On(Status, Manifest("false", ("Observation", First))).On(Status, "", 404).On(Status, Manifest("false", ("Observation", First), ("Patient", Second)))
            .On(First, "", 503).On(First, "", 503).On(First, Lines(Scene.Trial("t1"))).On(Second, Lines(Scene.Patient("p1")));
        await scene.OneAsync();

        var result = await scene.OneAsync();

        (result.Problem, result.Held["Observation"]).ShouldBe((null, 1));
        scene.Server.Asked.Count(a => a == Scene.Export).ShouldBe(2);
    }

    [Fact]
    public async Task Gather_OfRefusedExport_ReadsPagesAndSaysSo()
    {
        using var scene = Scene.OfPages();
        scene.Server.Forget("/fhir/metadata").On("/fhir/metadata", Scene.Capabilities(export: true)).On(Scene.Export, "{}", 403).On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")));

        var result = await scene.OneAsync();

        (result.Problem, result.Method, result.Held["Observation"]).ShouldBe((null, "search", 1));
        result.Notes.ShouldHaveSingleItem().ShouldContain("answers 403 to the beginning of an export");
    }

    // "requiresAccessToken": files that want the token are read at the server alone; others may lie elsewhere and get none.
    [Fact]
    public async Task Gather_OfFilesElsewhere_SendsTokenNowhereElse()
    {
        using var scene = Offered();
        scene.Server.On(Status, Manifest("false", ("Observation", "https://files.example/1"), ("Patient", "https://files.example/2")));
        scene.Files.On("/1", Lines(Scene.Trial("t1"))).On("/2", Lines(Scene.Patient("p1")));

        (await scene.OneAsync()).Held["Observation"].ShouldBe(1);

        scene.Server.Asked.ShouldNotContain("/1");
    }

    [Fact]
    public async Task Gather_OfFilesElsewhereThatWantTheToken_IsRefused()
    {
        using var scene = Offered();
        scene.Server.On(Status, Manifest("true", ("Observation", "https://files.example/1")));

        (await scene.OneAsync()).Problem!.Code.ShouldBe("HFB7205");

        scene.Files.Asked.ShouldBeEmpty();
    }

    private static Scene Offered()
    {
        var scene = new Scene();
        scene.Server.On("/fhir/metadata", Scene.Capabilities(export: true)).On(Scene.Export, "", 202, ("Content-Location", "https://north.example" + Status));
        return scene;
    }

    private static string Manifest(string token, params (string Type, string Url)[] files) =>
        $$"""{"transactionTime": "2026-04-01T12:00:00Z", "request": "https://north.example/fhir/$export", "requiresAccessToken": {{token}}, "output": [{{string.Join(", ", files.Select(f => $$"""{"type": "{{f.Type}}", "url": "{{(f.Url[0] == '/' ? "https://north.example" + f.Url : f.Url)}}"}"""))}}], "error": []}""";

    private static string Lines(params string[] resources) => string.Join('\n', resources) + "\n";
}
