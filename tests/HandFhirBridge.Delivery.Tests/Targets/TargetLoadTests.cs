using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Targets;

public sealed class TargetLoadTests
{
    private readonly FakeTimeProvider clock = new();

    [Fact]
    public void Begin_AsManyAsAllowed_IsFullUntilOneEnds()
    {
        var load = new TargetLoad(2, null, clock);
        using var first = load.Begin();
        load.IsFull.ShouldBeFalse();
        var second = load.Begin();
        load.IsFull.ShouldBeTrue();

        second.Dispose();
        second.Dispose();

        load.IsFull.ShouldBeFalse();
        using var third = load.Begin();
        load.IsFull.ShouldBeTrue("a turn that is ended twice must count once");
    }

    [Fact]
    public void Begin_WithARate_SpreadsTheMinuteEvenly()
    {
        var load = new TargetLoad(64, 30, clock);
        var begun = 0;
        for (var tenths = 0; tenths < 600; tenths++)
        {
            if (!load.IsFull)
            {
                load.Begin().Dispose();
                begun++;
                load.Rest.ShouldBe(TimeSpan.FromSeconds(2));
            }

            clock.Advance(TimeSpan.FromSeconds(0.1));
        }

        begun.ShouldBe(30);
    }
}
