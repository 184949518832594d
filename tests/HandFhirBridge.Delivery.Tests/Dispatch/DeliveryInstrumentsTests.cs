using System.Collections.Immutable;
using System.Diagnostics;
using System.Diagnostics.Metrics;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class DeliveryInstrumentsTests : IDisposable
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private readonly DeliveryInstruments instruments;
    private readonly MeterListener listener = new();
    private readonly List<string> seen = [];

    public DeliveryInstrumentsTests()
    {
        var meters = new OneMeter();
        instruments = new(clock, meters);
        listener.InstrumentPublished = (instrument, listening) =>
        {
            if (instrument.Meter == meters.Made)
            {
                listening.EnableMeasurementEvents(instrument);
            }
        };
        listener.SetMeasurementEventCallback<int>((i, value, tags, _) => Add(i, value, tags));
        listener.SetMeasurementEventCallback<long>((i, value, tags, _) => Add(i, value, tags));
        listener.SetMeasurementEventCallback<double>((i, value, tags, _) => Add(i, value, tags));
        listener.Start();
    }

    public void Dispose()
    {
        listener.Dispose();
        instruments.Dispose();
    }

    [Fact]
    public void Gauges_BeforeTheLedgerWasRead_SayNothing()
    {
        listener.RecordObservableInstruments();

        seen.ShouldBeEmpty();
    }

    [Fact]
    public void Gauges_OfTheLedger_TellDepthAndAgeByTarget()
    {
        var now = clock.GetUtcNow();
        instruments.Observe(
            new(Enum.GetValues<DeliveryState>().ToImmutableDictionary(s => s, _ => 7), now),
            [
                new("near", DeliveryState.Held, "HFB4101", 2, now.AddHours(-3)), new("near", DeliveryState.Held, "HFB4109", 1, now.AddHours(-2)),
                new("far", DeliveryState.Accepted, null, 5, now.AddMinutes(-1)),
            ]);

        listener.RecordObservableInstruments();

        seen.ShouldContain("hfb.ledger.unsent 3 hfb.target=near hfb.state=Held");
        seen.ShouldContain("hfb.ledger.unsent 0 hfb.target=near hfb.state=Accepted");
        seen.ShouldContain("hfb.ledger.unsent 5 hfb.target=far hfb.state=Accepted");
        seen.ShouldContain("hfb.ledger.oldest_unsent.age 10800 hfb.target=near");
        seen.ShouldContain("hfb.ledger.oldest_unsent.age 60 hfb.target=far");
        seen.ShouldContain("hfb.ledger.sessions 7 hfb.state=Held");
    }

    [Fact]
    public void Attempt_Ended_IsCountedTimedAndTraced()
    {
        using var traces = new ActivityListener
        {
            ShouldListenTo = source => source.Name == DeliveryInstruments.Name,
            Sample = (ref _) => ActivitySamplingResult.AllData,
        };
        ActivitySource.AddActivityListener(traces);
        using var activity = instruments.Begin("near").ShouldNotBeNull();

        instruments.Record(
            "near",
            new(AttemptStatus.Retry, DeliveryProblems.Unreachable.At("", "Invented.")) { Duration = TimeSpan.FromSeconds(2), Rung = 1, HttpStatus = 503 },
            activity);

        const string tags = "hfb.target=near hfb.rung=1 hfb.status=Retry hfb.code=HFB4001";
        seen.ShouldBe([$"hfb.delivery.attempts 1 {tags}", $"hfb.delivery.attempt.duration 2 {tags}"]);
        (activity.DisplayName, activity.Status).ShouldBe(("deliver session", ActivityStatusCode.Error));
        activity.TagObjects.ShouldContain(new KeyValuePair<string, object?>("http.response.status_code", 503));
    }

    private void Add<T>(Instrument instrument, T value, ReadOnlySpan<KeyValuePair<string, object?>> tags)
        where T : struct => seen.Add(string.Join(' ', [instrument.Name, FormattableString.Invariant($"{value}"), .. tags.ToArray().Select(tag => $"{tag.Key}={tag.Value}")]));

    private sealed class OneMeter : IMeterFactory
    {
        public Meter? Made { get; private set; }

        public Meter Create(MeterOptions options) => Made = new(options);

        public void Dispose() => Made?.Dispose();
    }
}
