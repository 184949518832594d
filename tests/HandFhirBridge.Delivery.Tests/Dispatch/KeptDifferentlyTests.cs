using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>What the target keeps is compared with what was sent.</summary>
public sealed class KeptDifferentlyTests : TargetTests
{
    private DifferenceAction action;

    [Fact]
    public async Task Deliver_DecimalRounded_IsDeliveredAndSaysWhatDiffers()
    {
        Target.Record.OnKeep = r => r["valueQuantity"]?["value"]?.ReplaceWith(5.1m);

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Delivered, "HFB4020"));
        entry.Reason.ShouldNotBeNull().ShouldNotContain("5.1");
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull()
            .ShouldContain("trial writing right (Observation.valueQuantity.value): 5.10 kept as 5.1;");
    }

    [Fact]
    public async Task Deliver_WhereDifferencesHold_IsHeldUntilAPersonLetsThemStand()
    {
        action = DifferenceAction.Hold;
        Target.Record.OnKeep = r => r.Remove("referenceRange");

        var held = await Bridge.DeliverAsync(Session);
        (held.State, held.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4020"));
        (await Bridge.Ledger.RetryAsync(Session.Key)).ShouldBeTrue();
        await Bridge.RunToTheEndAsync();

        var entry = await Bridge.EntryAsync(Session);
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Delivered, "HFB4020"));
        Target.Transactions.Count.ShouldBe(1);
    }

    [Fact]
    public async Task Deliver_EverythingKept_SaysSo()
    {
        await Bridge.DeliverAsync(Session);

        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("resources are kept as they were sent.");
        (await Bridge.EntryAsync(Session)).ProblemCode.ShouldBeNull();
    }

    protected override Bridge CreateBridge() => new(Target.Base, options => options.OnDifference = action);
}
