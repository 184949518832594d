using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>Answers after which it is not known whether the session was stored: it is looked for before anything is written.</summary>
public sealed class UnknownOutcomeTests : TargetTests
{
    // RFC 9110 sections 15.5.9 (408), 15.6.3 (502), 15.6.4 (503), 15.6.5 (504); 500: section 15.6.1.
    [Theory]
    [InlineData(408, "HFB4002")]
    [InlineData(500, "HFB4006")]
    [InlineData(502, "HFB4002")]
    [InlineData(503, "HFB4002")]
    [InlineData(504, "HFB4002")]
    public async Task Transaction_StoredButAnsweredByAnError_IsFoundAndNotWrittenAgain(int status, string code)
    {
        Target.OnTransaction = (_, usual) =>
        {
            usual();
            return ScriptedTarget.Answer(status, "<html>gateway</html>");
        };

        var entry = await Bridge.DeliverAsync(Session);
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, code));
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
        Target.Record.Writes.ShouldBe(Target.Record.Stored.Count);
    }

    [Theory]
    [InlineData(408)]
    [InlineData(502)]
    [InlineData(503)]
    [InlineData(504)]
    public async Task Transaction_NotStoredAndAnsweredByAGateway_IsWrittenAtTheNextAttempt(int status)
    {
        Target.OnTransaction = (_, usual) => Target.Transactions.Count == 1 ? ScriptedTarget.Answer(status) : usual();

        await DeliverToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 2);
    }

    [Fact]
    public async Task Transaction_StoredWithoutAnAnswerInTime_IsFoundAndNotWrittenAgain()
    {
        using var answer = new ManualResetEventSlim();
        Target.OnTransaction = (_, usual) =>
        {
            var stored = usual();
            Bridge.Clock.Advance(Bridge.Target.Options.Timeout);
            answer.Wait(TimeSpan.FromMinutes(5));
            return stored;
        };

        var entry = await Bridge.DeliverAsync(Session);
        answer.Set();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4002"));
        // A slow server may still be at work: it gets time before it is asked whether it stored anything.
        entry.NextAttemptAt.ShouldBe(Bridge.Clock.GetUtcNow() + Bridge.Options.Retry.FirstAfterError);
        await Bridge.RunToTheEndAsync();
        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Transaction_ConfirmedButNotYetInTheIndex_IsFoundLaterAndNotWrittenAgain()
    {
        var visible = false;
        Target.OnSearch = (_, usual) => visible ? usual() : ScriptedTarget.Json(ScriptedTarget.SearchSet([]));

        var entry = await Bridge.DeliverAsync(Session);
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4005"));
        visible = true;
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Transaction_ServerThatForbidsSearches_IsTakenAtItsWord()
    {
        Target.OnSearch = (_, _) => ScriptedTarget.Outcome(403, "forbidden", "No search");

        var entry = await Bridge.DeliverAsync(Session);

        entry.State.ShouldBe(DeliveryState.Delivered);
        entry.ReportId.ShouldNotBeNull();
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("does not let them be searched");
    }

    [Fact]
    public async Task Lease_AbandonedBeforeAnythingWasSent_IsDelivered()
    {
        await Bridge.Ledger.AcceptAsync([Session], Cancellation);
        await Bridge.Ledger.LeaseAsync("killed", TimeSpan.FromMinutes(5), [], Cancellation);
        await Bridge.Ledger.ReleaseAbandonedAsync(TimeSpan.Zero, Cancellation);

        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Kill_AtEachRequestTheServerSees_IsRecordedOnceAfterTheRestart()
    {
        var snapshots = new List<string>();
        ScriptedTarget.Script before = (_, usual) =>
        {
            snapshots.Add(Bridge.Snapshot());
            var answer = usual();
            snapshots.Add(Bridge.Snapshot());
            return answer;
        };
        (Target.OnPatientSearch, Target.OnMetadata, Target.OnTransaction, Target.OnSearch) = (before, before, before, before);
        await Bridge.DeliverAsync(Session);
        (Target.OnPatientSearch, Target.OnMetadata, Target.OnTransaction, Target.OnSearch) = (null, null, null, null);
        snapshots.Count.ShouldBeGreaterThanOrEqualTo(8);
        var writes = Target.Record.Writes;

        foreach (var snapshot in snapshots)
        {
            using var restarted = new Bridge(Target.Base, survivor: snapshot);
            (await restarted.Ledger.ReleaseAbandonedAsync(TimeSpan.Zero, Cancellation)).ShouldBe(1);
            await restarted.RunToTheEndAsync();
            (await restarted.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
        }

        Target.Record.Writes.ShouldBe(writes);
        await ShouldBeRecordedOnceAsync(transactions: 1);
    }
}
