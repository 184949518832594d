using System.Net;

namespace HandFhirBridge.Outcomes.Tests.Gather;

/// <summary>Gathering page by page (R4 search.html, http.html#paging) from servers that behave, and from those that do not.</summary>
public sealed class SearchGatherTests
{
    [Fact]
    public async Task Gather_OfTwoPages_KeepsOursAndNotesOthers()
    {
        using var scene = Scene.OfPages();
        var foreign = """{"resourceType": "Observation", "id": "bp", "subject": {"reference": "Patient/p7"}}""";
        scene.Server.On(Scene.Observations, Scene.Page("https://north.example/fhir/Observation?page=2", Scene.Trial("t1"), foreign)).On("/fhir/Observation?page=2", Scene.Bundle(Scene.Trial("t2")));

        var result = await scene.OneAsync();

        result.Problem.ShouldBeNull();
        (result.Method, result.Held["Observation"], result.Held["Patient"]).ShouldBe(("search", 2, 1));
        result.Notes.ShouldHaveSingleItem().ShouldContain("1 resources of type Observation came that are not ours");
        scene.Held("Observation")[0].ShouldContain("\"value\":12.40}");
    }

    // What no question to outcomes needs is not kept: names and free text stay in the record.
    [Fact]
    public async Task Gather_OfNamesAndNotes_KeepsNone()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")));

        await scene.OneAsync();

        scene.Held("Patient").ShouldHaveSingleItem().ShouldContain("1960-01-01");
        scene.Held("Patient").Concat(scene.Held("Observation")).ShouldAllBe(line => !line.Contains("Invented"));
    }

    [Fact]
    public async Task Gather_Again_AsksForChangesAndReplacesById()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1"), Scene.Trial("t2")), 200, ("Date", "Wed, 01 Apr 2026 12:00:00 GMT"));
        await scene.OneAsync();
        const string since = "&_lastUpdated=ge2026-04-01T11:58:00Z";
        scene.Server.On(Scene.Observations + since, Scene.Bundle(Scene.Trial("t2", "13.1", "2026-04-01T13:00:00Z"), Scene.Trial("t3", "5", "2026-04-01T13:00:00Z"))).On(Scene.Reports + since, Scene.Bundle());

        var result = await scene.OneAsync();

        (result.Problem, result.Held["Observation"]).ShouldBe((null, 3));
        scene.Held("Observation").Count(l => l.Contains("\"t2\"")).ShouldBe(1);
        scene.Held("Observation").ShouldContain(l => l.Contains("13.1"));
    }

    [Fact]
    public async Task Gather_OfServerThatIgnoresLastUpdated_SaysSo()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")), 200, ("Date", "Wed, 01 Apr 2026 12:00:00 GMT"));
        await scene.OneAsync();
        const string since = "&_lastUpdated=ge2026-04-01T11:58:00Z";
        scene.Server.On(Scene.Observations + since, Scene.Bundle(Scene.Trial("t1"))).On(Scene.Reports + since, Scene.Bundle());

        var result = await scene.OneAsync();

        (result.Problem, result.Held["Observation"]).ShouldBe((null, 1));
        result.Notes.ShouldHaveSingleItem().ShouldContain("does not select by _lastUpdated");
    }

    [Fact]
    public async Task Gather_OfServerThatRefusesLastUpdated_ReadsEverything()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")), 200, ("Date", "Wed, 01 Apr 2026 12:00:00 GMT"));
        await scene.OneAsync();
        scene.Server.On(Scene.Observations + "&_lastUpdated=ge2026-04-01T11:58:00Z", "{}", 400);

        var result = await scene.OneAsync();

        (result.Problem, result.Held["Observation"]).ShouldBe((null, 1));
        result.Notes.ShouldContain(n => n.Contains("refuses _lastUpdated"));
    }

    [Fact]
    public async Task Gather_AfterFailureOnSecondPage_GoesOnThere()
    {
        using var scene = Scene.OfPages();
        const string second = "/fhir/Observation?page=2";
        scene.Server.On(Scene.Observations, Scene.Page(second, Scene.Trial("t1"))).On(second, "", 503);

        var failed = await scene.OneAsync();
        scene.Server.Asked.Clear();
        scene.Server.Forget(second).On(second, Scene.Bundle(Scene.Trial("t2")));
        var result = await scene.OneAsync();

        failed.Problem!.Code.ShouldBe("HFB7201");
        scene.Held("Observation").Count.ShouldBe(2);
        (result.Problem, result.Held["Observation"]).ShouldBe((null, 2));
        scene.Server.Asked.ShouldNotContain(Scene.Observations);
    }

    [Fact]
    public async Task Gather_OfPageThatIsGone_BeginsTheSearchAnew()
    {
        using var scene = Scene.OfPages();
        const string second = "/fhir/Observation?page=2";
        scene.Server.On(Scene.Observations, Scene.Page(second, Scene.Trial("t1"))).On(second, "", 503);
        await scene.OneAsync();
        scene.Server.Forget(second).On(second, "", 410).Forget(Scene.Observations).On(Scene.Observations, Scene.Bundle(Scene.Trial("t1"), Scene.Trial("t2")));

        var result = await scene.OneAsync();

        (result.Problem, result.Held["Observation"]).ShouldBe((null, 2));
    }

    [Fact]
    public async Task Gather_Full_DropsWhatTheServerDeleted()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1"), Scene.Trial("t2"))).On(Scene.Observations, Scene.Bundle(Scene.Trial("t2")));
        await scene.OneAsync();

        (await scene.OneAsync(full: true)).Held["Observation"].ShouldBe(1);
    }

    [Fact]
    public async Task Gather_OfPatientTheListLeavesOut_ReadsItByItself()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1", patient: "p2")))
            .On("/fhir/Patient?_id=p2&_count=30", Scene.Bundle(Scene.Patient("p1"))).On("/fhir/Patient/p2", Scene.Patient("p2")).On("/fhir/Condition?patient=p2&_count=200", "{}", 403);

        var result = await scene.OneAsync();

        scene.Held("Patient").ShouldHaveSingleItem().ShouldContain("\"p2\"");
        result.Notes.ShouldHaveSingleItem().ShouldContain("conditions cannot be read");
    }

    [Theory]
    [InlineData(200, """{"resourceType": "Bundle", "link": [{"relation": "next", "url": "Observation?page=1"}]}""", "HFB7204")]
    [InlineData(200, """{"resourceType": "Bundle", "link": [{"relation": "next", "url": "https://elsewhere.example/fhir/Observation?page=2"}]}""", "HFB7205")]
    [InlineData(200, """{"resourceType": "Patient"}""", "HFB7203")]
    [InlineData(200, "<html>", "HFB7203")]
    [InlineData(403, "", "HFB7202")]
    [InlineData(503, "", "HFB7201")]
    public async Task Gather_OfServerAtFault_NamesTheFaultAndKeepsWhatWasThere(int status, string page, string code)
    {
        using var scene = Scene.OfPages();
        Directory.CreateDirectory(Path.GetDirectoryName(scene.Set.File("north", "Observation"))!);
        File.WriteAllText(scene.Set.File("north", "Observation"), Scene.Trial("t0"));
        scene.Server.On(Scene.Observations, page, status).On("/fhir/Observation?page=1", page, status);

        (await scene.OneAsync()).Problem!.Code.ShouldBe(code);

        scene.Held("Observation").ShouldBe([Scene.Trial("t0")]);
    }

    [Fact]
    public async Task Gather_OfTwoSourcesOneDown_GathersTheOther()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")));
        using var down = new ScriptedServer();
        down.On("/fhir/metadata", "", (int)HttpStatusCode.BadGateway);

        var results = await scene.GatherAsync([scene.Source("south", down), scene.Source("north", scene.Server)]);

        results.Select(r => (r.Source, r.Problem?.Code)).ShouldBe([("south", "HFB7201"), ("north", null)]);
        scene.Held("Observation").Count.ShouldBe(1);
    }

    [Fact]
    public async Task Gather_BesideAnother_IsRefused()
    {
        using var scene = Scene.OfPages();
        using var other = new FileStream(Path.Combine(scene.Set.Folder, ".lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);

        (await Should.ThrowAsync<HandFhirBridge.Outcomes.Gather.GatherException>(() => scene.GatherAsync())).Problem.Code.ShouldBe("HFB7207");
    }

    [Fact]
    public async Task Gather_WithBrokenState_SaysSoAndFullHelps()
    {
        using var scene = Scene.OfPages();
        scene.Server.On(Scene.Observations, Scene.Bundle(Scene.Trial("t1")));
        await scene.OneAsync();
        await File.WriteAllTextAsync(Path.Combine(scene.Set.Folder, "north", "state.json"), "{", TestContext.Current.CancellationToken);

        (await scene.OneAsync()).Problem!.Code.ShouldBe("HFB7208");
        (await scene.OneAsync(full: true)).Problem.ShouldBeNull();
    }
}
