using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What a store does when the machine's clock was wrong.</summary>
public abstract class LedgerClockContract : LedgerSharingContract
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Lease_ClockMovedBack_SendsWhatWasAcceptedOrTriedInTheFuture(bool restarted)
    {
        await Ledger.AcceptAsync([Sessions.Session("S-1", patient: "P-1"), Sessions.Session("S-2", patient: "P-2")], Cancellation);
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Retry(Clock.GetUtcNow().AddHours(1)));

        Clock.AdjustTime(Clock.GetUtcNow().AddYears(-1));

        using var another = restarted ? OpenAnother() : null;
        var ledger = another ?? Ledger;
        (await ledger.LeaseAsync()).ShouldNotBeNull();
        (await ledger.LeaseAsync()).ShouldNotBeNull();
        (await ledger.LeaseAsync()).ShouldBeNull();
    }

    [Fact]
    public async Task Lease_ClockMovedBack_LeavesALaterTryAsItWasPlanned()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        Clock.Advance(TimeSpan.FromDays(1));
        await Ledger.CompleteAsync((await Ledger.LeaseAsync())!, Retry(Clock.GetUtcNow().AddHours(1)));
        Clock.Advance(TimeSpan.FromMinutes(30));

        Clock.AdjustTime(Clock.GetUtcNow().AddMinutes(-10));

        (await Ledger.LeaseAsync()).ShouldBeNull();
    }
}
