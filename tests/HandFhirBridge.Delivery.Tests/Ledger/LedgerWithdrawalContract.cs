using System.Text;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to where a session is withdrawn.</summary>
public abstract class LedgerWithdrawalContract : LedgerRevisionContract
{
    private static readonly AttemptResult Delivered = new(AttemptStatus.Delivered, null);

    [Fact]
    public async Task Withdraw_DeliveredSession_IsTheNextRevisionWithItsReason()
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);

        var done = await WithdrawAsync();

        (done.Key, done.IsSent, done.Problems.IsEmpty).ShouldBe((first.Key with { Revision = 2 }, true, true));
        var lease = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (lease.Entry.Key.Revision, lease.Entry.IsWithdrawal).ShouldBe((2, true));
        lease.Earlier.ShouldHaveSingleItem().ToArray().ShouldBe(first.Bundle.ToArray());
        (await Ledger.FindAsync(first.Key, Cancellation))!.IsWithdrawal.ShouldBeFalse();
        var decision = (await Ledger.ReadDecisionsAsync(done.Key!, Cancellation)).ShouldHaveSingleItem();
        (decision.Action, decision.Reason, decision.By, decision.At).ShouldBe(("withdraw", "Wrong patient.", "R. Okafor", Clock.GetUtcNow()));
    }

    [Fact]
    public async Task Withdraw_AgainOrCorrected_IsRefused()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await WithdrawAsync();

        (await WithdrawAsync()).Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB5010");
        foreach (var revision in new[] { 2, 3 })
        {
            var corrected = await Ledger.AcceptAsync(Sessions.Session(revision: revision, content: """{"late":true}"""));
            (corrected.Outcome, corrected.Problem?.Code).ShouldBe((AcceptOutcome.Conflict, "HFB5010"));
        }

        (await Ledger.AcceptAsync(Sessions.Session())).Outcome.ShouldBe(AcceptOutcome.AlreadyAccepted);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(AttemptStatus.Held)]
    [InlineData(AttemptStatus.Failed)]
    public async Task Withdraw_SessionNeverWritten_IsTakenOutOfLine(AttemptStatus? status)
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        if (status is { } stopped)
        {
            await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Stopped(stopped));
        }

        var done = await WithdrawAsync();

        done.IsSent.ShouldBeFalse();
        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
        (await Ledger.FindAsync(done.Key!, Cancellation))!.State.ShouldBe(DeliveryState.Superseded);
        (await Ledger.RetryAsync(first.Key)).ShouldBeFalse();
        (await Ledger.LeaseAsync()).ShouldBeNull();
        (await Ledger.NextDueAsync(Cancellation)).ShouldBeNull();
    }

    [Theory]
    [InlineData(AttemptStatus.Retry)]
    [InlineData(AttemptStatus.Unknown)]
    [InlineData(AttemptStatus.Failed)]
    public async Task Withdraw_WhileItIsBeingSent_FollowsAndIsNeverFollowedByWhatWasSent(AttemptStatus status)
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        var lease = (await Ledger.LeaseAsync())!;
        (await WithdrawAsync()).IsSent.ShouldBeTrue();
        (await Ledger.LeaseAsync("worker-2")).ShouldBeNull();

        await Ledger.CompleteAsync(lease, status == AttemptStatus.Retry ? Retry(Clock.GetUtcNow()) : Stopped(status));

        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.IsWithdrawal.ShouldBeTrue();
    }

    [Fact]
    public async Task Withdraw_WorkerOfTheSessionFallsSilent_IsSentInItsPlace()
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        await Ledger.LeaseAsync();
        await WithdrawAsync();

        Clock.Advance(TimeSpan.FromMinutes(5));

        (await Ledger.LeaseAsync()).ShouldNotBeNull().Entry.IsWithdrawal.ShouldBeTrue();
        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Superseded);
    }

    [Fact]
    public async Task Withdraw_CorrectionNotYetWritten_IsMadeOfWhatIsInTheChart()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Delivered);
        var second = Sessions.Session(revision: 2, content: """{"r":2}""");
        await Ledger.AcceptAsync(second);
        StandingRevision? standing = null;

        await WithdrawAsync(made => standing = made);

        (standing!.Entry.Key.Revision, standing.Next).ShouldBe((1, 3));
        (await Ledger.StateAsync(second)).ShouldBe(DeliveryState.Superseded);
    }

    [Fact]
    public async Task Withdraw_CannotBeMapped_ChangesNothing()
    {
        var first = Sessions.Session();
        await Ledger.AcceptAsync(first);
        var problem = LedgerProblems.Unusable.At("", "Invented.");

        var done = await Ledger.WithdrawAsync("north-clinic", "S-1", Decided, _ => new(null, [problem]), Cancellation);

        (done.Key, done.Problems.Single()).ShouldBe((null, problem));
        (await Ledger.StateAsync(first)).ShouldBe(DeliveryState.Accepted);
    }

    [Fact]
    public async Task Withdraw_NoSuchSession_IsNothing() => (await WithdrawAsync()).ShouldBe(WithdrawalResult.NoSession);

    private PersonDecision Decided => new("R. Okafor", "Wrong patient.", Clock.GetUtcNow());

    private Task<WithdrawalResult> WithdrawAsync(Action<StandingRevision>? seen = null) => Ledger.WithdrawAsync("north-clinic", "S-1", Decided, standing =>
    {
        seen?.Invoke(standing);
        return new Outcome<AcceptedSession>(
            new(standing.Entry.Key with { Revision = standing.Next }, Encoding.UTF8.GetBytes("""{"withdrawn":true}"""), standing.Payload.Bundle, standing.Payload.Patient), []);
    }, Cancellation);
}
