using System.Collections.Immutable;
using System.Diagnostics;
using System.Diagnostics.Metrics;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Traces and metrics under the name <see cref="Name"/>. Their tags are targets, rungs, states and codes, never patients or sessions.</summary>
public sealed class DeliveryInstruments : IDisposable
{
    /// <summary>Name of the activity source and of the meter.</summary>
    public const string Name = "HandFhirBridge.Delivery";

    private static readonly DeliveryState[] States = [DeliveryState.Accepted, DeliveryState.Sending, DeliveryState.Held, DeliveryState.Failed];

    private readonly ActivitySource source = new(Name);
    private readonly Meter meter;
    private readonly Counter<long> attempts;
    private readonly Histogram<double> durations;
    private readonly TimeProvider clock;
    private readonly ImmutableArray<FhirTarget> targets;
    private volatile LedgerCounts? counts;
    private volatile IReadOnlyCollection<LedgerGroup> unsent = [];

    /// <summary>With a meter of the host, or of its own.</summary>
    /// <param name="clock">Gives the time.</param>
    /// <param name="meters">Makes the meter; null makes one of its own.</param>
    /// <param name="targets">Configured targets; null reports those alone that have sessions unsent.</param>
    public DeliveryInstruments(TimeProvider clock, IMeterFactory? meters = null, TargetRegistry? targets = null)
    {
        this.clock = clock;
        this.targets = targets is null ? [] : [.. targets.All];
        meter = meters?.Create(Name) ?? new Meter(Name);
        attempts = meter.CreateCounter<long>("hfb.delivery.attempts", "{attempt}", "Attempts to deliver a session, by target, rung, status and code.");
        durations = meter.CreateHistogram<double>("hfb.delivery.attempt.duration", "s", "Time an attempt took.");
        meter.CreateObservableGauge("hfb.ledger.sessions", Sessions, "{session}", "Sessions in the ledger by state.");
        meter.CreateObservableGauge("hfb.ledger.unsent", Unsent, "{session}", "Sessions that are not delivered, by target and state.");
        meter.CreateObservableGauge("hfb.ledger.oldest_unsent.age", Age, "s", "Age of the oldest session that is not delivered, by target.");
        meter.CreateObservableGauge("hfb.target.down", Down, description: "1 while the target does not answer, else 0.");
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
    /// <param name="seen">All sessions.</param>
    /// <param name="groups">Those that are not delivered.</param>
    public void Observe(LedgerCounts seen, ImmutableArray<LedgerGroup> groups)
    {
        unsent = groups;
        counts = seen;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        source.Dispose();
        meter.Dispose();
    }

    private IEnumerable<Measurement<int>> Sessions() =>
        counts?.ByState.Select(pair => new Measurement<int>(pair.Value, new KeyValuePair<string, object?>("hfb.state", pair.Key.ToString()))) ?? [];

    private IEnumerable<Measurement<int>> Unsent() => Names().SelectMany(name => States, (name, state) => new Measurement<int>(
        unsent.Where(group => group.Target == name && group.State == state).Sum(group => group.Entries), Tag("hfb.target", name), Tag("hfb.state", state.ToString())));

    private IEnumerable<Measurement<double>> Age() => Names().Select(name => new Measurement<double>(
        unsent.Where(group => group.Target == name).Select(group => Math.Max(0, (clock.GetUtcNow() - group.Oldest).TotalSeconds)).DefaultIfEmpty(0).Max(),
        Tag("hfb.target", name)));

    private IEnumerable<Measurement<int>> Down() => targets.Select(target => new Measurement<int>(
        target.Contact.Standing.Availability == TargetAvailability.Down ? 1 : 0, Tag("hfb.target", target.Name)));

    // Before the ledger was first read nothing is known, and 0 would say that all is well.
    private IEnumerable<string> Names() => counts is null
        ? []
        : targets.Select(target => target.Name).Concat(unsent.Select(group => group.Target)).Distinct(StringComparer.Ordinal);

    private static KeyValuePair<string, object?> Tag(string name, string value) => new(name, value);
}
