using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>Rung 3: one resource after the other.</summary>
public sealed class SingleWriteTests : TargetTests
{
    public SingleWriteTests() => Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false);

    [Fact]
    public async Task Deliver_EachCreate_ComesAfterASearchForItsIdentifier()
    {
        await Bridge.DeliverAsync(Session);

        for (var at = 1; at < Target.Requests.Count; at++)
        {
            // The reading back at the end is posted too, but to the base.
            if (Target.Requests[at].StartsWith("POST /fhir/", StringComparison.Ordinal) && Target.Requests[at] != "POST /fhir/")
            {
                Target.Requests[at - 1].ShouldMatch($@"^GET {Target.Requests[at][5..]}\?(identifier|_tag)=https%3A%2F%2F[^,]+$");
            }
        }

        Target.Writes.Count.ShouldBe(Entries(Session));
        Target.Writes.ShouldAllBe(w => w.Method == "POST" && w.IfNoneExist != null && w.Body!["id"] == null);
    }

    // RFC 9110 section 13.1.1 asks for 412; servers also answer 409 and 500. Common practice, no source.
    [Theory]
    [InlineData(412)]
    [InlineData(409)]
    [InlineData(500)]
    public async Task Correction_VersionNoLongerTheLatest_IsReadAnewAndReplaced(int status)
    {
        await Bridge.DeliverAsync(Session);
        var report = Target.Record.Stored.Keys.Single(k => k.StartsWith("DiagnosticReport/", StringComparison.Ordinal));
        Target.OnWrite = (sent, usual) =>
        {
            if (sent.Path == report && sent.IfMatch == "W/\"1\"")
            {
                // Somebody else wrote in between.
                Target.Record.Keep(report, Target.Record.Stored[report].DeepClone().AsObject());
                return ScriptedTarget.Outcome(status, "conflict", "Stale");
            }

            return usual();
        };
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        await DeliverToTheEndAsync();

        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);
        Target.Writes.Where(w => w.Path == report).Select(w => w.IfMatch).ShouldBe(["W/\"1\"", "W/\"2\""]);
        ((string?)Target.Record.Stored[report]["status"]).ShouldBe("corrected");
    }

    [Fact]
    public async Task Correction_OfUnchangedResources_LeavesThemAlone()
    {
        await Bridge.DeliverAsync(Session);
        var first = Target.Writes.Count;
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        await Bridge.DeliverAsync(Session);

        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
        Target.Writes.Skip(first).ShouldNotContain(w => w.Type == "Device");
        Target.Writes.Skip(first).ShouldAllBe(w => w.Method == "PUT" || w.Type == "Provenance");
    }

    [Fact]
    public async Task Refused_ThenRetriedByAPerson_RestoresWhatWasTakenBack()
    {
        Target.OnWrite = (sent, usual) => sent.Type == "DiagnosticReport" ? ScriptedTarget.Outcome(422, "processing", "Not yet") : usual();
        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4019");
        Target.OnWrite = null;

        await Bridge.Ledger.RetryAsync(Session.Key);
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 0);
        Target.Record.Stored.Values.ShouldAllBe(r => r["status"] == null || (string)r["status"]! != "entered-in-error");
    }

    [Fact]
    public async Task Kill_AtEachRequestTheServerSees_IsRecordedOnceAfterTheRestart()
    {
        var snapshots = new List<string>();
        ScriptedTarget.ResourceScript before = (_, usual) =>
        {
            snapshots.Add(Bridge.Snapshot());
            return usual();
        };
        Target.OnWrite = before;
        await Bridge.DeliverAsync(Session);
        Target.OnWrite = null;

        foreach (var snapshot in snapshots.Where((_, n) => n % 4 == 0))
        {
            using var restarted = new Bridge(Target.Base, survivor: snapshot);
            await restarted.Ledger.ReleaseAbandonedAsync(TimeSpan.Zero, Cancellation);
            await restarted.RunToTheEndAsync();
            (await restarted.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
        }

        Target.Writes.Count.ShouldBe(Entries(Session));
        await ShouldBeRecordedOnceAsync(transactions: 0);
    }
}
