using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to where a session has more than one revision.</summary>
public abstract class LedgerRevisionContract : LedgerDecisionContract
{
    private static readonly AttemptResult Delivered = new(AttemptStatus.Delivered, null);

    [Fact]
    public async Task Accept_RevisionBelowOneHeld_IsRefused()
    {
        await Ledger.AcceptAsync(Sessions.Session(revision: 2));

        var result = await Ledger.AcceptAsync(Sessions.Session(revision: 1, content: """{"old":true}"""));

        (result.Outcome, result.Problem?.Code).ShouldBe((AcceptOutcome.OlderRevision, "HFB5002"));
    }

    [Fact]
    public async Task Lease_LaterRevision_WaitsForTheEarlierOne()
    {
        await Ledger.AcceptAsync([Sessions.Session(revision: 1), Sessions.Session(revision: 2, content: """{"r":2}""")], Cancellation);
        var first = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        first.Entry.Key.Revision.ShouldBe(1);
        await Ledger.CompleteAsync(first, Retry(Clock.GetUtcNow().AddHours(1)));

        (await Ledger.LeaseAsync()).ShouldBeNull();
        Clock.Advance(TimeSpan.FromHours(1));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), Delivered);
        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.Key.Revision.ShouldBe(2);
    }

    [Theory]
    [InlineData(AttemptStatus.Held)]
    [InlineData(AttemptStatus.Failed)]
    public async Task Accept_LaterRevisionOfOneThatWaitsForAPerson_TakesItsPlaceForGood(AttemptStatus status)
    {
        var first = Sessions.Session(revision: 1);
        await Ledger.AcceptAsync(first);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(status));

        await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}"""));

        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
        (await Ledger.RetryAsync(first.Key)).ShouldBeFalse();
        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.Key.Revision.ShouldBe(2);
    }

    [Fact]
    public async Task Accept_CorrectedPatientOfASessionNeverWritten_IsAccepted()
    {
        await Ledger.AcceptAsync(Sessions.Session(patient: "P-wrong"));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(AttemptStatus.Held));

        (await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}""", patient: "P-right"))).Outcome.ShouldBe(AcceptOutcome.Accepted);
    }

    [Theory]
    [InlineData(AttemptStatus.Delivered)]
    [InlineData(AttemptStatus.Unknown)]
    public async Task Accept_OtherPatientForASessionThatMayBeInAChart_IsRefused(AttemptStatus status)
    {
        await Ledger.AcceptAsync(Sessions.Session(patient: "P-1"));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(status));

        var result = await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}""", patient: "P-2"));

        (result.Outcome, result.Problem?.Code).ShouldBe((AcceptOutcome.Conflict, "HFB5009"));
    }

    [Theory]
    [InlineData(AttemptStatus.Held)]
    [InlineData(AttemptStatus.Failed)]
    public async Task Complete_StoppedAfterACorrectionCameIn_CanNeverFollowIt(AttemptStatus status)
    {
        var first = Sessions.Session(revision: 1);
        await Ledger.AcceptAsync(first);
        var lease = (await Ledger.LeaseAsync())!;
        await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}"""));
        await Ledger.CompleteAsync(lease, Stopped(status));

        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), Delivered);
        (await Ledger.RetryAsync(first.Key)).ShouldBeFalse();
        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task Accept_CorrectionAfterItsSiteGotAnotherTarget_GoesWhereTheSessionIs()
    {
        await Ledger.AcceptAsync(Sessions.Session(target: "north"));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}""", target: "south"));

        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.Target.ShouldBe("north");
    }
}
