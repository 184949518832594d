using HandFhirBridge.Delivery.Ledger;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to. A store's tests inherit it and say how to open one.</summary>
public abstract class LedgerContract : IAsyncDisposable
{
    private static readonly AttemptResult Delivered = new(AttemptStatus.Delivered, null) { Rung = 1, HttpStatus = 200, PatientId = "p", PatientVersion = "3", ReportId = "r" };

    protected FakeTimeProvider Clock { get; } = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    protected static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    protected abstract ILedger Ledger { get; }

    public abstract ValueTask DisposeAsync();

    protected static AttemptResult Retry(DateTimeOffset at, AttemptStatus status = AttemptStatus.Retry) =>
        new(status, LedgerProblems.Unusable.At("", "Invented.")) { NextAttemptAt = at };

    protected static AttemptResult Stopped(AttemptStatus status) => new(status, LedgerProblems.Unusable.At("", "Invented."));

    [Fact]
    public async Task Accept_NewSession_KeepsEveryByte()
    {
        var session = Sessions.Session(content: """{"seconds":12.40,"note":"å"}""");

        (await Ledger.AcceptAsync(session)).Outcome.ShouldBe(AcceptOutcome.Accepted);

        var payload = (await Ledger.ReadPayloadAsync(session.Key, Cancellation)).ShouldNotBeNull();
        payload.Document.ToArray().ShouldBe(session.Document.ToArray());
        payload.Bundle.ToArray().ShouldBe(session.Bundle.ToArray());
        payload.Patient.ShouldBe(session.Patient);
    }

    [Fact]
    public async Task Accept_SameContentTwice_IsOneEntryAndOneDelivery()
    {
        await Ledger.AcceptAsync(Sessions.Session());

        (await Ledger.AcceptAsync(Sessions.Session())).Outcome.ShouldBe(AcceptOutcome.AlreadyAccepted);

        (await Ledger.ListAsync(new(), Cancellation)).Length.ShouldBe(1);
        (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task Accept_SameContentAfterDelivery_IsNotSentAgain()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        (await Ledger.AcceptAsync(Sessions.Session())).Outcome.ShouldBe(AcceptOutcome.AlreadyAccepted);

        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task Accept_SameRevisionOtherContent_IsAConflictThatNamesTheStoredHash()
    {
        var first = Sessions.Session(content: """{"a":1}""");
        await Ledger.AcceptAsync(first);

        var result = await Ledger.AcceptAsync(Sessions.Session(content: """{"a":2}"""));

        result.Outcome.ShouldBe(AcceptOutcome.Conflict);
        result.ContentHash.ShouldBe(ContentHash.Of(first.Document));
        result.Problem.ShouldNotBeNull().Code.ShouldBe("HFB5001");
        result.Problem.Message.ShouldContain(result.ContentHash);
        (await Ledger.ReadPayloadAsync(first.Key, Cancellation)).ShouldNotBeNull().Document.ToArray().ShouldBe(first.Document.ToArray());
    }

    [Fact]
    public async Task Accept_SameSessionIdAtAnotherSite_IsAnotherSession()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        var session = Sessions.Session(content: """{"b":1}""");
        (await Ledger.AcceptAsync(session with { Key = session.Key with { Site = "south-clinic" } })).Outcome.ShouldBe(AcceptOutcome.Accepted);
    }

    [Fact]
    public async Task Accept_BatchWithAConflict_TakesTheRest()
    {
        await Ledger.AcceptAsync(Sessions.Session("S-2", """{"a":1}"""));

        var results = await Ledger.AcceptAsync(
            [Sessions.Session("S-1"), Sessions.Session("S-2"), Sessions.Session("S-3"), Sessions.Session("S-3")], Cancellation);

        results.Select(r => r.Outcome).ShouldBe(
            [AcceptOutcome.Accepted, AcceptOutcome.Conflict, AcceptOutcome.Accepted, AcceptOutcome.AlreadyAccepted]);
        (await Ledger.CountAsync(Cancellation)).Open.ShouldBe(3);
    }

    [Fact]
    public async Task Accept_SameSessionFromManyThreads_IsAcceptedOnce()
    {
        var results = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(() => Ledger.AcceptAsync(Sessions.Session()))));

        results.Count(r => r.Outcome == AcceptOutcome.Accepted).ShouldBe(1);
        results.Count(r => r.Outcome == AcceptOutcome.AlreadyAccepted).ShouldBe(15);
    }

    [Fact]
    public async Task Lease_ManyWorkers_NeverGetTheSameSession()
    {
        var sessions = Enumerable.Range(0, 60).Select(n => Sessions.Session($"S-{n}", patient: $"P-{n}")).ToList();
        await Ledger.AcceptAsync(sessions, Cancellation);

        var leased = await Task.WhenAll(Enumerable.Range(0, 6).Select(worker => Task.Run(async () =>
        {
            var keys = new List<SessionKey>();
            while (await Ledger.LeaseAsync($"worker-{worker}") is { } lease)
            {
                keys.Add(lease.Entry.Key);
                (await Ledger.CompleteAsync(lease, Delivered)).ShouldBeTrue();
            }

            return keys;
        })));

        leased.SelectMany(k => k).Order(Comparer<SessionKey>.Create((a, b) => string.CompareOrdinal(a.SessionId, b.SessionId)))
            .ShouldBe(sessions.Select(s => s.Key).OrderBy(k => k.SessionId, StringComparer.Ordinal));
    }

    [Fact]
    public async Task Lease_PatientWithASessionUnderWay_WaitsForIt()
    {
        await Ledger.AcceptAsync([Sessions.Session("S-1", patient: "P-1"), Sessions.Session("S-2", patient: "P-1"), Sessions.Session("S-3", patient: "P-2")], Cancellation);

        var first = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.Key.SessionId.ShouldBe("S-3");
        (await Ledger.LeaseAsync()).ShouldBeNull();
        await Ledger.CompleteAsync(first, Delivered);
        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.Key.SessionId.ShouldBe("S-2");
    }

    [Fact]
    public async Task Lease_PausedTarget_IsPassedOver()
    {
        await Ledger.AcceptAsync([Sessions.Session("S-1", target: "a"), Sessions.Session("S-2", patient: "P-2", target: "b")], Cancellation);

        (await Ledger.LeaseAsync("worker-1", "a")).ShouldNotBeNull().Entry.Key.SessionId.ShouldBe("S-2");
        (await Ledger.LeaseAsync("worker-1", "a")).ShouldBeNull();
    }

    [Fact]
    public async Task Lease_RunOut_IsGivenToAnotherInDoubtAndTheAttemptKept()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        var abandoned = (await Ledger.LeaseAsync("worker-1")).ShouldNotBeNull();
        abandoned.InDoubt.ShouldBeFalse();
        Clock.Advance(TimeSpan.FromMinutes(5));

        var taken = (await Ledger.LeaseAsync("worker-2")).ShouldNotBeNull();

        taken.InDoubt.ShouldBeTrue();
        taken.Entry.Attempts.ShouldBe(2);
        (await Ledger.CompleteAsync(abandoned, Delivered)).ShouldBeFalse();
        (await Ledger.StateAsync(Sessions.Session())).ShouldBe(DeliveryState.Sending);
        (await Ledger.ReadAttemptsAsync(taken.Entry.Key, Cancellation)).ShouldHaveSingleItem().Status.ShouldBe(AttemptStatus.Interrupted);
    }

    [Fact]
    public async Task ReleaseAbandoned_AfterAKill_MakesEverythingDueAndInDoubt()
    {
        await Ledger.AcceptAsync([Sessions.Session("S-1", patient: "P-1"), Sessions.Session("S-2", patient: "P-2")], Cancellation);
        await Ledger.LeaseAsync();
        await Ledger.LeaseAsync();

        (await Ledger.ReleaseAbandonedAsync(TimeSpan.Zero, Cancellation)).ShouldBe(2);

        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task ReleaseAbandoned_WithAWait_IsNotDueBeforeItIsOver()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.LeaseAsync();

        await Ledger.ReleaseAbandonedAsync(TimeSpan.FromSeconds(30), Cancellation);

        Clock.Advance(TimeSpan.FromSeconds(29));
        (await Ledger.LeaseAsync()).ShouldBeNull();
        Clock.Advance(TimeSpan.FromSeconds(1));
        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
    }

    [Fact]
    public async Task Complete_Delivered_KeepsChartReportAndAttempt()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        var lease = (await Ledger.LeaseAsync())!;
        Clock.Advance(TimeSpan.FromSeconds(2));

        (await Ledger.CompleteAsync(lease, Delivered with { Duration = TimeSpan.FromSeconds(2), Answer = new string('x', 3_000) })).ShouldBeTrue();

        var entry = (await Ledger.FindAsync(lease.Entry.Key, Cancellation)).ShouldNotBeNull();
        (entry.State, entry.PatientId, entry.PatientVersion, entry.ReportId).ShouldBe((DeliveryState.Delivered, "p", "3", "r"));
        entry.DeliveredAt.ShouldBe(Clock.GetUtcNow());
        entry.NextAttemptAt.ShouldBeNull();
        var attempt = (await Ledger.ReadAttemptsAsync(entry.Key, Cancellation)).ShouldHaveSingleItem();
        (attempt.Number, attempt.Rung, attempt.HttpStatus, attempt.Duration).ShouldBe((1, 1, 200, TimeSpan.FromSeconds(2)));
        attempt.Answer.ShouldNotBeNull().Length.ShouldBe(2_000);
    }

    [Theory]
    [InlineData(AttemptStatus.Retry, false)]
    [InlineData(AttemptStatus.Unknown, true)]
    public async Task Complete_ToBeTriedAgain_WaitsAndRemembersTheDoubt(AttemptStatus status, bool inDoubt)
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Retry(Clock.GetUtcNow().AddMinutes(1), status));

        (await Ledger.LeaseAsync()).ShouldBeNull();
        (await Ledger.NextDueAsync(Cancellation)).ShouldBe(Clock.GetUtcNow().AddMinutes(1));
        Clock.Advance(TimeSpan.FromMinutes(1));
        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBe(inDoubt);
    }

    [Fact]
    public async Task Complete_RetryAfterUnknown_IsStillInDoubt()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Retry(Clock.GetUtcNow(), AttemptStatus.Unknown));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Retry(Clock.GetUtcNow()));

        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
    }

    [Theory]
    [InlineData(AttemptStatus.Held, DeliveryState.Held)]
    [InlineData(AttemptStatus.Failed, DeliveryState.Failed)]
    public async Task Complete_ForAPerson_StaysUntilItIsRetried(AttemptStatus status, DeliveryState state)
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(status));
        Clock.Advance(TimeSpan.FromDays(365));

        (await Ledger.LeaseAsync()).ShouldBeNull();
        var entry = (await Ledger.FindAsync(Sessions.Session().Key, Cancellation)).ShouldNotBeNull();
        (entry.State, entry.ProblemCode, entry.Reason).ShouldBe((state, "HFB5007", "Invented."));

        (await Ledger.RetryAsync(entry.Key)).ShouldBeTrue();
        (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
        (await Ledger.ReadAttemptsAsync(entry.Key, Cancellation)).Length.ShouldBe(1);
    }

    [Fact]
    public async Task Retry_DeliveredEntry_IsRefused()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        (await Ledger.RetryAsync(Sessions.Session().Key)).ShouldBeFalse();
        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task List_ByStateSiteAndCode_GivesTheOldestFirst()
    {
        foreach (var n in Enumerable.Range(1, 4))
        {
            await Ledger.AcceptAsync(Sessions.Session($"S-{n}", patient: $"P-{n}"));
            Clock.Advance(TimeSpan.FromSeconds(1));
        }

        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(AttemptStatus.Held));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        (await Ledger.ListAsync(new() { State = DeliveryState.Accepted }, Cancellation)).Select(e => e.Key.SessionId).ShouldBe(["S-3", "S-4"]);
        (await Ledger.ListAsync(new() { ProblemCode = "HFB5007" }, Cancellation)).Select(e => e.Key.SessionId).ShouldBe(["S-1"]);
        (await Ledger.ListAsync(new() { Site = "elsewhere" }, Cancellation)).ShouldBeEmpty();
        (await Ledger.ListAsync(new() { Take = 2, Skip = 1 }, Cancellation)).Select(e => e.Key.SessionId).ShouldBe(["S-2", "S-3"]);
    }

    [Fact]
    public async Task Count_EveryState_IsThereAndTheOldestUnsentIsDated()
    {
        (await Ledger.CountAsync(Cancellation)).OldestUnsent.ShouldBeNull();
        var begin = Clock.GetUtcNow();
        await Ledger.AcceptAsync([Sessions.Session("S-1"), Sessions.Session("S-2", patient: "P-2")], Cancellation);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(AttemptStatus.Held));
        Clock.Advance(TimeSpan.FromHours(1));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        var counts = await Ledger.CountAsync(Cancellation);

        counts.ByState.Count.ShouldBe(Enum.GetValues<DeliveryState>().Length);
        (counts.ByState[DeliveryState.Held], counts.ByState[DeliveryState.Delivered], counts.Open, counts.Waiting).ShouldBe((1, 1, 0, 1));
        counts.OldestUnsent.ShouldBe(begin);
    }
}
