using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class RetryPlanTests
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    [Theory]
    [InlineData(0, 0.0, 1)]
    [InlineData(0, 1.0, 2)]
    [InlineData(1, 1.0, 4)]
    [InlineData(5, 1.0, 64)]
    [InlineData(40, 1.0, 21_600)]
    [InlineData(40, 0.0, 10_800)]
    public void Complete_PassingTrouble_DoublesUpToTheLongestAndSpreads(int earlier, double random, double seconds)
    {
        var plan = new RetryPlan(new(), clock, () => random);

        var result = plan.Complete(Result(DeliveryProblems.Unreachable), Earlier(earlier, DeliveryProblems.Unreachable));

        (result.NextAttemptAt - clock.GetUtcNow()).ShouldBe(TimeSpan.FromSeconds(seconds));
        result.Status.ShouldBe(AttemptStatus.Retry);
    }

    [Theory]
    [InlineData(3, AttemptStatus.Unknown)]
    [InlineData(4, AttemptStatus.Failed)]
    public void Complete_ErrorThatMayBePermanent_EndsAtTheLimit(int earlier, AttemptStatus expected) =>
        new RetryPlan(new(), clock, () => 0).Complete(
            Result(DeliveryProblems.ServerError, AttemptStatus.Unknown), Earlier(earlier, DeliveryProblems.ServerError)).Status.ShouldBe(expected);

    [Fact]
    public void Complete_PassingTroubles_DoNotCountTowardsTheLimit() =>
        new RetryPlan(new(), clock, () => 0).Complete(
            Result(DeliveryProblems.ServerError, AttemptStatus.Unknown), Earlier(50, DeliveryProblems.Unreachable)).Status.ShouldBe(AttemptStatus.Unknown);

    [Fact]
    public void Complete_AfterAPersonPutItInLineAgain_StartsAnew()
    {
        var history = Earlier(4, DeliveryProblems.ServerError)
            .Append(new(5, clock.GetUtcNow(), TimeSpan.Zero, "default", 1, AttemptStatus.Failed, 500, "HFB4006", null)).ToList();

        var result = new RetryPlan(new(), clock, () => 1).Complete(Result(DeliveryProblems.ServerError, AttemptStatus.Unknown), history);

        (result.NextAttemptAt - clock.GetUtcNow()).ShouldBe(TimeSpan.FromSeconds(30));
    }

    [Fact]
    public void Complete_TimeTheTargetAskedFor_Stays()
    {
        var at = clock.GetUtcNow().AddMinutes(7);
        new RetryPlan(new(), clock, () => 1).Complete(Result(DeliveryProblems.TooManyRequests) with { NextAttemptAt = at }, []).NextAttemptAt.ShouldBe(at);
    }

    private static AttemptResult Result(ProblemKind kind, AttemptStatus status = AttemptStatus.Retry) => new(status, kind.At("", "Invented."));

    private List<DeliveryAttempt> Earlier(int count, ProblemKind kind) =>
        [.. Enumerable.Range(1, count).Select(n => new DeliveryAttempt(n, clock.GetUtcNow(), TimeSpan.Zero, "default", 1, AttemptStatus.Retry, null, kind.Code, null))];
}
