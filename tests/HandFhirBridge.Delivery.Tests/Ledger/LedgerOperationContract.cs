using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to where persons look after many sessions.</summary>
public abstract class LedgerOperationContract : LedgerWithdrawalContract
{
    private static readonly TimeSpan HalfAnHour = TimeSpan.FromMinutes(30);

    [Fact]
    public async Task RetryAll_MatchingEntries_FallDueEvenlyOverTheSpanOldestFirst()
    {
        var sessions = await StoppedAsync(6, AttemptStatus.Failed, DeliveryProblems.Refused.At("", "Invented."));

        var batch = await Ledger.RetryAllAsync(new() { State = DeliveryState.Failed }, HalfAnHour, Sessions.Decision("Mapping mended."), Cancellation);

        var now = Clock.GetUtcNow();
        batch.ShouldBe(new(6, now, now.AddMinutes(25)));
        var due = new List<DateTimeOffset?>();
        foreach (var session in sessions)
        {
            due.Add((await Ledger.FindAsync(session.Key, Cancellation)).ShouldNotBeNull().NextAttemptAt);
        }

        due.ShouldBe([now, now.AddMinutes(5), now.AddMinutes(10), now.AddMinutes(15), now.AddMinutes(20), now.AddMinutes(25)]);
    }

    [Fact]
    public async Task RetryAll_Entries_KeepEachWhoWhenWhatAndWhy()
    {
        var sessions = await StoppedAsync(2, AttemptStatus.Held, IdentityProblems.NotFound.At("", "Invented."));

        await Ledger.RetryAllAsync(new(), TimeSpan.Zero, Sessions.Decision("Charts registered.", "ops-desk"), Cancellation);

        foreach (var session in sessions)
        {
            var decision = (await Ledger.ReadDecisionsAsync(session.Key, Cancellation)).ShouldHaveSingleItem();
            (decision.Action, decision.By, decision.Reason, decision.Caller).ShouldBe(("retry", "R. Okafor", "Charts registered.", "ops-desk"));
            decision.At.ShouldBe(Sessions.Decision("").At);
            (await Ledger.LeaseAsync()).ShouldNotBeNull().InDoubt.ShouldBeTrue();
        }
    }

    public static TheoryData<LedgerQuery, int> Choices => new()
    {
        { new() { ProblemCode = "HFB4101" }, 2 },
        { new() { ProblemCode = "HFB4004" }, 3 },
        { new() { State = DeliveryState.Held }, 2 },
        { new() { State = DeliveryState.Held, ProblemCode = "HFB4004" }, 0 },
        { new() { Target = "other" }, 0 },
        { new() { Site = "north-clinic" }, 5 },
        { new() { Site = "south-clinic" }, 0 },
        { new() { SessionId = "S-HFB4004-1" }, 1 },
        { new() { State = DeliveryState.Accepted }, 0 },
        { new(), 5 },
    };

    [Theory, MemberData(nameof(Choices))]
    public async Task RetryAll_Filter_ChoosesWhatMatches(LedgerQuery query, int expected)
    {
        await StoppedAsync(2, AttemptStatus.Held, IdentityProblems.NotFound.At("", "Invented."));
        await StoppedAsync(3, AttemptStatus.Failed, DeliveryProblems.Refused.At("", "Invented."));
        await Ledger.AcceptAsync(Sessions.Session("S-waiting", patient: "P-waiting"));

        (await Ledger.RetryAllAsync(query, TimeSpan.Zero, Sessions.Decision("Mended."), Cancellation)).Entries.ShouldBe(expected);

        (await Ledger.CountAsync(Cancellation)).Waiting.ShouldBe(5 - expected);
    }

    [Fact]
    public async Task RetryAll_WithoutACode_LeavesWhatMustBeSeenOneByOne()
    {
        await StoppedAsync(1, AttemptStatus.Held, DeliveryProblems.KeptDifferently.At("", "Invented."));
        var stopped = Sessions.Session();
        await Ledger.AcceptAsync(stopped);
        (await Ledger.HoldAsync(stopped.Key, Sessions.Decision("Wrong form scanned."), Cancellation)).ShouldBeTrue();

        (await Ledger.RetryAllAsync(new(), TimeSpan.Zero, Sessions.Decision("All of it."), Cancellation)).Entries.ShouldBe(0);

        foreach (var code in BulkRetry.OneByOne)
        {
            (await Ledger.RetryAllAsync(new() { ProblemCode = code }, TimeSpan.Zero, Sessions.Decision("Seen."), Cancellation)).Entries.ShouldBe(1);
        }
    }

    [Fact]
    public async Task Hold_WaitingEntry_IsNotSentUntilItIsRetried()
    {
        var session = Sessions.Session();
        await Ledger.AcceptAsync(session);

        (await Ledger.HoldAsync(session.Key, Sessions.Decision("Patient asks to wait."), Cancellation)).ShouldBeTrue();

        (await Ledger.LeaseAsync()).ShouldBeNull();
        var entry = (await Ledger.FindAsync(session.Key, Cancellation)).ShouldNotBeNull();
        (entry.State, entry.ProblemCode, entry.Reason, entry.NextAttemptAt).ShouldBe((DeliveryState.Held, "HFB5011", "A person stopped the session.", null));
        (await Ledger.RetryAsync(session.Key)).ShouldBeTrue();
        (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (await Ledger.ReadDecisionsAsync(session.Key, Cancellation)).Select(d => d.Action).ShouldBe(["hold", "retry"]);
    }

    [Fact]
    public async Task Hold_EntryThatIsBeingSentOrDone_IsRefusedAndKeepsNothing()
    {
        var session = Sessions.Session();
        await Ledger.AcceptAsync(session);
        var lease = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (await Ledger.HoldAsync(session.Key, Sessions.Decision("Late."), Cancellation)).ShouldBeFalse();

        await Ledger.CompleteAsync(lease, new(AttemptStatus.Delivered, null));

        (await Ledger.HoldAsync(session.Key, Sessions.Decision("Later."), Cancellation)).ShouldBeFalse();
        (await Ledger.ReadDecisionsAsync(session.Key, Cancellation)).ShouldBeEmpty();
    }

    [Fact]
    public async Task Hold_Correction_StopsTheRevisionsBeforeItToo()
    {
        var first = Sessions.Session();
        var second = Sessions.Session(revision: 2, content: """{"r":2}""");
        await Ledger.AcceptAsync(first);
        await Ledger.AcceptAsync(second);
        (await Ledger.HoldAsync(first.Key, Sessions.Decision("The old one."), Cancellation)).ShouldBeFalse();

        (await Ledger.HoldAsync(second.Key, Sessions.Decision("Wrong patient?"), Cancellation)).ShouldBeTrue();

        (await Ledger.LeaseAsync()).ShouldBeNull();
        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
    }

    [Fact]
    public async Task Hold_CorrectionOfASessionUnderWay_KeepsItFromBeingTriedAgain()
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        var lease = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        var second = Sessions.Session(revision: 2, content: """{"r":2}""");
        await Ledger.AcceptAsync(second);
        (await Ledger.HoldAsync(second.Key, Sessions.Decision("Wrong patient?"), Cancellation)).ShouldBeTrue();

        await Ledger.CompleteAsync(lease, Retry(Clock.GetUtcNow()));

        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
        (await Ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task Group_Unsent_CountsByTargetStateAndCodeOldestFirst()
    {
        var begin = Clock.GetUtcNow();
        await StoppedAsync(2, AttemptStatus.Held, IdentityProblems.NotFound.At("", "Invented."));
        Clock.Advance(TimeSpan.FromHours(1));
        await StoppedAsync(1, AttemptStatus.Failed, DeliveryProblems.Refused.At("", "Invented."));
        Clock.Advance(TimeSpan.FromHours(1));
        await Ledger.AcceptAsync(Sessions.Session("S-far", patient: "P-far", target: "far"));
        await Ledger.AcceptAsync(Sessions.Session("S-done", patient: "P-done"));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync("worker-1", "far")).ShouldNotBeNull(), new(AttemptStatus.Delivered, null));

        (await Ledger.GroupAsync(new(), Cancellation)).ShouldBe(
        [
            new("default", DeliveryState.Held, "HFB4101", 2, begin),
            new("default", DeliveryState.Failed, "HFB4004", 1, begin.AddHours(1)),
            new("far", DeliveryState.Accepted, null, 1, begin.AddHours(2)),
        ]);
        (await Ledger.GroupAsync(new() { Target = "far" }, Cancellation)).ShouldHaveSingleItem().Entries.ShouldBe(1);
        (await Ledger.ListAsync(new() { Unsent = true }, Cancellation)).Length.ShouldBe(4);
    }

    private async Task<List<AcceptedSession>> StoppedAsync(int count, AttemptStatus status, Assessment.Problems.Problem problem)
    {
        var sessions = new List<AcceptedSession>();
        foreach (var n in Enumerable.Range(0, count))
        {
            var session = Sessions.Session($"S-{problem.Code}-{n}", patient: $"P-{problem.Code}-{n}");
            await Ledger.AcceptAsync(session);
            await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), new(status, problem));
            sessions.Add(session);
        }

        return sessions;
    }
}
