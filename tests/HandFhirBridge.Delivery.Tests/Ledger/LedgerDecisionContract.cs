using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to where a person decides about a session.</summary>
public abstract class LedgerDecisionContract : LedgerContract
{
    private static readonly AttemptResult InDoubtAboutTheChart = new(AttemptStatus.Held, IdentityProblems.NotFound.At("", "Nobody."));

    [Fact]
    public async Task Resolve_HeldEntry_IsInLineWithTheChoiceAndInDoubt()
    {
        var session = await HeldAsync();

        (await Ledger.ResolveAsync(session.Key, Choice("chart-1"), Cancellation)).ShouldBeTrue();

        var lease = (await Ledger.LeaseAsync()).ShouldNotBeNull();
        (lease.InDoubt, lease.Choice).ShouldBe((true, Choice("chart-1")));
    }

    [Fact]
    public async Task Resolve_MoreThanOnce_KeepsAllAndTakesTheLast()
    {
        var session = await HeldAsync();
        await Ledger.ResolveAsync(session.Key, Choice("chart-1"), Cancellation);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), InDoubtAboutTheChart);
        await Ledger.ResolveAsync(session.Key, Choice("chart-2"), Cancellation);

        (await Ledger.LeaseAsync()).ShouldNotBeNull().Choice.ShouldBe(Choice("chart-2"));
        (await Ledger.ReadDecisionsAsync(session.Key, Cancellation)).Select(d => (d.Number, d.PatientId, d.By, d.Action))
            .ShouldBe([(1, "chart-1", "R. Okafor", "resolve"), (2, "chart-2", "R. Okafor", "resolve")]);
    }

    [Fact]
    public async Task Lease_LaterRevisionOfAResolvedSession_HasTheChoice()
    {
        var session = await HeldAsync();
        await Ledger.ResolveAsync(session.Key, Choice("chart-1"), Cancellation);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), new(AttemptStatus.Delivered, null));
        await Ledger.AcceptAsync(Sessions.Session(revision: 2, content: """{"r":2}"""));

        (await Ledger.LeaseAsync()).ShouldNotBeNull().Choice.ShouldBe(Choice("chart-1"));
    }

    [Fact]
    public async Task Lease_OtherSession_HasNoChoice()
    {
        var session = await HeldAsync();
        await Ledger.ResolveAsync(session.Key, Choice("chart-1"), Cancellation);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), new(AttemptStatus.Delivered, null));
        await Ledger.AcceptAsync(Sessions.Session("S-2"));

        (await Ledger.LeaseAsync()).ShouldNotBeNull().Choice.ShouldBeNull();
    }

    [Fact]
    public async Task Resolve_EntryThatIsNotHeld_KeepsNothing()
    {
        var session = Sessions.Session();
        await Ledger.AcceptAsync(session);

        (await Ledger.ResolveAsync(session.Key, Choice("chart-1"), Cancellation)).ShouldBeFalse();

        (await Ledger.ReadDecisionsAsync(session.Key, Cancellation)).ShouldBeEmpty();
    }

    private ChartChoice Choice(string chart) => new(chart, new("R. Okafor", "Wristband seen.", Clock.GetUtcNow()));

    private async Task<AcceptedSession> HeldAsync()
    {
        var session = Sessions.Session();
        await Ledger.AcceptAsync(session);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync()).ShouldNotBeNull(), InDoubtAboutTheChart);
        return session;
    }
}
