using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>What is known of a target outlives the process.</summary>
public sealed class TargetKnowledgeTests : TargetTests
{
    private readonly string folder = Directory.CreateTempSubdirectory("targets-").FullName;

    [Fact]
    public async Task Restart_AfterAFall_GoesStraightToTheRungThatHeldWithoutAskingAgain()
    {
        Target.OnTransaction = (sent, usual) =>
            (string)sent!["entry"]![0]!["request"]!["method"]! == "PUT" ? ScriptedTarget.Outcome(405, "not-supported", "Lindqvist is not allowed") : usual();
        await Bridge.DeliverAsync(Session);

        using var restarted = new Bridge(Target.Base, knowledge: folder);
        await restarted.DeliverAsync(MappedSessions.Session("S-2"));

        Target.Transactions.Count.ShouldBe(3);
        Target.Requests.Count(r => r == "GET /fhir/metadata").ShouldBe(1);
        var known = new TargetKnowledgeFile(folder).Load("default", Bridge.Target.Base).ShouldNotBeNull();
        known.Rung.ShouldBe(new(Rung.TransactionOfConditionalCreates, Bridge.Clock.GetUtcNow()));
        known.LastFall.ShouldBe(new(Rung.TransactionOfUpdates, Rung.TransactionOfConditionalCreates, Bridge.Clock.GetUtcNow(), "HTTP 405 (not-supported)"));
        known.Capabilities.ShouldNotBeNull().Resources["Observation"].UpdateCreate.ShouldBe(true);
    }

    [Fact]
    public async Task Restart_ADayLater_ReadsTheCapabilitiesAnew()
    {
        await Bridge.DeliverAsync(Session);

        using var restarted = new Bridge(Target.Base, knowledge: folder);
        restarted.Clock.Advance(TimeSpan.FromDays(1));
        await restarted.DeliverAsync(MappedSessions.Session("S-2"));

        Target.Requests.Count(r => r == "GET /fhir/metadata").ShouldBe(2);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{ \"baseUrl\":")]
    [InlineData("null")]
    [InlineData("""{ "baseUrl": "https://elsewhere.example/fhir/", "rung": { "rung": "document-alone", "since": "2026-03-02T09:00:00Z" } }""")]
    public void Load_FileThatIsOfNoUse_KnowsNothing(string content)
    {
        File.WriteAllText(Path.Combine(folder, "default.json"), content);

        new TargetKnowledgeFile(folder).Load("default", Bridge.Target.Base).ShouldBeNull();
    }

    [Fact]
    public async Task Save_FolderThatTakesNoFile_DeliversAllTheSame()
    {
        Directory.Delete(folder, recursive: true);
        await File.WriteAllTextAsync(folder, "a file in the way", Cancellation);

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        File.Delete(folder);
    }

    protected override Bridge CreateBridge() => new(Target.Base, knowledge: folder);

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
