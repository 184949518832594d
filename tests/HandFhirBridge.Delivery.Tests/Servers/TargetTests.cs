using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>One scripted target, one bridge, one session.</summary>
public abstract class TargetTests : IDisposable
{
    private readonly Lazy<Bridge> bridge;

    protected TargetTests() => bridge = new(CreateBridge);

    protected static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    protected ScriptedTarget Target { get; } = new();

    protected Bridge Bridge => bridge.Value;

    protected AcceptedSession Session { get; set; } = MappedSessions.Session();

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    protected virtual Bridge CreateBridge() => new(Target.Base);

    protected virtual void Dispose(bool disposing)
    {
        if (bridge.IsValueCreated)
        {
            bridge.Value.Dispose();
        }

        Target.Dispose();
    }

    protected async Task<LedgerEntry> DeliverToTheEndAsync()
    {
        await Bridge.DeliverAsync(Session);
        await Bridge.RunToTheEndAsync();
        return await Bridge.EntryAsync(Session);
    }

    protected async Task ShouldBeRecordedOnceAsync(int transactions)
    {
        var entry = await Bridge.EntryAsync(Session);
        entry.State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);
        Target.Transactions.Count.ShouldBe(transactions);
        Target.Record.Stored.Count.ShouldBe(Entries(Session));
    }

    protected static int Entries(AcceptedSession session) =>
        System.Text.Json.JsonDocument.Parse(session.Bundle).RootElement.GetProperty("entry").GetArrayLength();
}
