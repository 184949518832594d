using System.Diagnostics;
using System.Diagnostics.Metrics;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Traces and metrics under the name <see cref="Name"/>. Their tags are targets, rungs, states and codes, never patients or sessions.</summary>
public sealed class DeliveryInstruments : IDisposable
{
    /// <summary>Name of the activity source and of the meter.</summary>
    public const string Name = "HandFhirBridge.Delivery";

    private readonly ActivitySource source = new(Name);
    private readonly Meter meter;
    private readonly Counter<long> attempts;
    private readonly Histogram<double> durations;
    private readonly TimeProvider clock;
    private volatile LedgerCounts? counts;

    /// <summary>With a meter of the host, or of its own.</summary>
    public DeliveryInstruments(TimeProvider clock, IMeterFactory? meters = null)
    {
        this.clock = clock;
        meter = meters?.Create(Name) ?? new Meter(Name);
        attempts = meter.CreateCounter<long>("hfb.delivery.attempts", "{attempt}", "Attempts to deliver a session, by target, rung, status and code.");
        durations = meter.CreateHistogram<double>("hfb.delivery.attempt.duration", "s", "Time an attempt took.");
        meter.CreateObservableGauge("hfb.ledger.sessions", Sessions, "{session}", "Sessions in the ledger by state.");
        meter.CreateObservableGauge("hfb.ledger.oldest_unsent.age", Age, "s", "Age of the oldest session that is not delivered.");
    }

    /// <summary>Begins the trace of an attempt; null if nobody listens.</summary>
    public Activity? Begin(string target) => source.StartActivity("deliver session", ActivityKind.Client)?.SetTag("hfb.target", target);

    /// <summary>Counts an attempt that ended.</summary>
    public void Record(string target, AttemptResult result, Activity? activity)
    {
        ArgumentNullException.ThrowIfNull(result);
        var tags = new TagList
        {
            { "hfb.target", target },
            { "hfb.rung", result.Rung },
            { "hfb.status", result.Status.ToString() },
            { "hfb.code", result.Problem?.Code },
        };
        attempts.Add(1, tags);
        durations.Record(result.Duration.TotalSeconds, tags);
        activity?.SetTag("hfb.rung", result.Rung).SetTag("hfb.status", result.Status.ToString()).SetTag("hfb.code", result.Problem?.Code)
            .SetTag("http.response.status_code", result.HttpStatus)
            .SetStatus(result.Status == AttemptStatus.Delivered ? ActivityStatusCode.Ok : ActivityStatusCode.Error);
    }

    /// <summary>Keeps the ledger's numbers for the gauges.</summary>
    public void Observe(LedgerCounts seen) => counts = seen;

    /// <inheritdoc/>
    public void Dispose()
    {
        source.Dispose();
        meter.Dispose();
    }

    private IEnumerable<Measurement<int>> Sessions() =>
        counts?.ByState.Select(pair => new Measurement<int>(pair.Value, new KeyValuePair<string, object?>("hfb.state", pair.Key.ToString()))) ?? [];

    private IEnumerable<Measurement<double>> Age() =>
        counts is not { } seen ? [] : [new((seen.OldestUnsent is { } oldest ? clock.GetUtcNow() - oldest : TimeSpan.Zero).TotalSeconds)];
}
