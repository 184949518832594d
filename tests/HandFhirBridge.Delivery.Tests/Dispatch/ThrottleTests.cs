using System.Globalization;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>429 (RFC 6585 section 4) with Retry-After (RFC 9110 section 10.2.3).</summary>
public sealed class ThrottleTests : TargetTests
{
    [Theory]
    [InlineData("Retry-After", "120", 120)]
    [InlineData("Retry-After", "0", 0)]
    [InlineData("Retry-After", "Mon, 02 Mar 2026 09:05:00 GMT", 300)]
    [InlineData("Retry-After", "Mon, 02 Mar 2026 08:00:00 GMT", 0)]
    [InlineData("Retry-After", "86400", 3600)]
    [InlineData("RateLimit", "\"default\";r=0;t=45", 45)]
    public async Task TooManyRequests_WithATime_WaitsForItUpToTheCap(string header, string value, int seconds)
    {
        Target.OnTransaction = (_, usual) =>
            Target.Transactions.Count == 1 ? ScriptedTarget.Answer(429, "", "text/plain", (header, value)) : usual();
        var begin = Bridge.Clock.GetUtcNow();

        await Bridge.Ledger.AcceptAsync([Session], Cancellation);
        await Bridge.Dispatcher.RunOnceAsync(Cancellation);

        var entry = await Bridge.EntryAsync(Session);
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4003"));
        entry.NextAttemptAt.ShouldBe(begin.AddSeconds(seconds));
        await Bridge.RunToTheEndAsync();
        await ShouldBeRecordedOnceAsync(transactions: 2);
    }

    [Theory]
    [InlineData("soon")]
    [InlineData("-5")]
    [InlineData("")]
    public async Task TooManyRequests_WithoutAUsableTime_WaitsTheUsualTime(string value)
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(429, "", "text/plain", ("Retry-After", value));

        var entry = await Bridge.DeliverAsync(Session);

        entry.NextAttemptAt.ShouldBe(Bridge.Clock.GetUtcNow() + Bridge.Options.Retry.First, value.ToString(CultureInfo.InvariantCulture));
    }

    [Fact]
    public async Task TooManyRequests_ForOneSession_RestsTheWholeTarget()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(429, "", "text/plain", ("Retry-After", "60"));
        Target.Patients.Add(ScriptedTarget.Chart(c =>
        {
            c["id"] = "chart-2";
            c["identifier"]![0]!["value"] = "P-0002";
        }));
        await Bridge.Ledger.AcceptAsync([Session, MappedSessions.Session("S-2", patient: "P-0002")], Cancellation);

        await Bridge.RunAsync();

        Target.Transactions.Count.ShouldBe(1);
        Bridge.Target.IsPaused.ShouldBeTrue();
        Bridge.Clock.Advance(TimeSpan.FromSeconds(60));
        Target.OnTransaction = null;
        await Bridge.RunToTheEndAsync();
        (await Bridge.Ledger.CountAsync(Cancellation)).ByState[DeliveryState.Delivered].ShouldBe(2);
    }

    [Fact]
    public async Task ServiceUnavailable_WithATime_WaitsForItAndLooksFirst()
    {
        Target.OnTransaction = (_, usual) =>
        {
            usual();
            return ScriptedTarget.Answer(503, "", "text/plain", ("Retry-After", "30"));
        };
        var entry = await Bridge.DeliverAsync(Session);

        entry.NextAttemptAt.ShouldBe(Bridge.Clock.GetUtcNow().AddSeconds(30));
        await Bridge.RunToTheEndAsync();
        await ShouldBeRecordedOnceAsync(transactions: 1);
    }
}
