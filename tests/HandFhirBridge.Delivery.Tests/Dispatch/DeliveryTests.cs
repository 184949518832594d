using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class DeliveryTests : IDisposable
{
    private readonly ScriptedTarget target = new();
    private readonly Bridge bridge;

    public DeliveryTests() => bridge = new(target.Base);

    public void Dispose()
    {
        bridge.Dispose();
        target.Dispose();
    }

    [Fact]
    public async Task Deliver_GoodServer_StoresEverythingOnceAndRemembersTheChart()
    {
        var session = MappedSessions.Session();

        var entry = await bridge.DeliverAsync(session);

        var attempt = await bridge.LastAttemptAsync(session);
        (entry.State, entry.PatientId, entry.PatientVersion).ShouldBe((DeliveryState.Delivered, "chart-1", "7"), attempt.Answer);
        attempt.Rung.ShouldBe(1);
        target.Record.Stored.ShouldContainKey($"DiagnosticReport/{entry.ReportId}");
        target.Transactions.Count.ShouldBe(1);
        target.Record.Writes.ShouldBe(target.Record.Stored.Count);
    }
}
