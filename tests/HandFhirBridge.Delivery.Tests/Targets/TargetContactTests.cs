using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Targets;

public sealed class TargetContactTests
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private readonly TargetContact contact;

    public TargetContactTests() => contact = new(clock);

    [Fact]
    public void Standing_NothingAsked_IsUnknown() => contact.Standing.ShouldBe(new(TargetAvailability.Unknown, null, null, null));

    [Fact]
    public void Standing_ThreeFailuresInARow_IsDownSinceTheFirst()
    {
        contact.Saw(Status(200));
        var first = clock.GetUtcNow();
        contact.Saw(TargetAnswer.None(AnswerKind.NotSent, "refused"));
        clock.Advance(TimeSpan.FromSeconds(2));
        contact.Saw(Status(503));
        contact.Standing.Availability.ShouldBe(TargetAvailability.Up);
        clock.Advance(TimeSpan.FromSeconds(4));
        contact.Saw(TargetAnswer.None(AnswerKind.NoAnswer, "time-out"));

        contact.Standing.ShouldBe(new(TargetAvailability.Down, first.AddSeconds(6), first, "no connection"));
    }

    // Somebody has just set it up, or it was down before the service came up: there is nothing to wait for.
    [Fact]
    public void Standing_FirstFailureOfOneThatNeverAnswered_IsDown()
    {
        contact.Saw(TargetAnswer.None(AnswerKind.NotSent, "refused"));

        contact.Standing.ShouldBe(new(TargetAvailability.Down, clock.GetUtcNow(), clock.GetUtcNow(), "no connection"));
    }

    [Theory]
    [InlineData(200)]
    [InlineData(422)]
    [InlineData(429)]
    [InlineData(500)]
    public void Standing_AnyAnswerOfItsOwn_IsUpAgain(int status)
    {
        foreach (var _ in Enumerable.Range(0, 5))
        {
            contact.Saw(Status(502));
        }

        contact.Saw(Status(status));

        contact.Standing.ShouldBe(new(TargetAvailability.Up, clock.GetUtcNow(), null, null));
    }

    private static TargetAnswer Status(int status) => new(AnswerKind.Answered, status, default, null, null);
}
