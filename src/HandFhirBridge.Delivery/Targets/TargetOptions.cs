using HandFhirBridge.Delivery.Authorization;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>One FHIR R4 server that results are written to.</summary>
public sealed class TargetOptions
{
    /// <summary>Name in the ledger and in metrics. Default <c>default</c>; unique among the targets.</summary>
    public string Name { get; set; } = Ledger.AcceptedSession.DefaultTarget;

    /// <summary>FHIR base, for example <c>https://fhir.clinic.example/r4</c>. Required; http or https.</summary>
    public Uri? BaseUrl { get; set; }

    /// <summary>Sessions sent to it at the same time by one instance. Default 4, range 1 to 64.</summary>
    public int Concurrency { get; set; } = 4;

    /// <summary>Most sessions begun in a minute by one instance, spread evenly; null does not limit. Default null, range 1 to 6,000.</summary>
    public int? SessionsPerMinute { get; set; }

    /// <summary>Longest wait for one answer. Default 30 s, range 1 s to 10 min.</summary>
    public TimeSpan Timeout { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait for a connection. Default 10 s, range 1 s to 1 min.</summary>
    public TimeSpan ConnectTimeout { get; set; } = TimeSpan.FromSeconds(10);

    /// <summary>Further tries within an attempt when no connection came about, so that nothing was sent. Default 2, range 0 to 5.</summary>
    public int ConnectRetries { get; set; } = 2;

    /// <summary>How long the target is left alone after several failures in a row. Default 30 s, range 1 s to 1 h.</summary>
    public TimeSpan BreakDuration { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait a <c>Retry-After</c> can ask for. Default 1 h, range 1 s to 1 day.</summary>
    public TimeSpan RetryAfterCap { get; set; } = TimeSpan.FromHours(1);

    /// <summary>Age at which the target's CapabilityStatement is read anew. Default 1 day, range 1 min to 30 days.</summary>
    public TimeSpan CapabilitiesMaxAge { get; set; } = TimeSpan.FromDays(1);

    /// <summary>Largest answer read. Default 16 MiB, range 64 KiB to 256 MiB.</summary>
    public int LargestAnswerBytes { get; set; } = 16 * 1024 * 1024;

    /// <summary>True asks the target, where no chart is surely the right one, which could be meant (<c>Patient/$match</c>). It is shown to the person who decides; nothing else follows. Default false.</summary>
    public bool ProposePatients { get; set; }

    /// <summary>True creates a chart where nobody at the target carries the identifier: for a site's own server alone, where no other system registers patients. Default false.</summary>
    public bool CreatePatients { get; set; }

    /// <summary>Best rung that is tried; a lower one than the first makes a target take less than it could, for example documents alone. Default <see cref="Rung.TransactionOfUpdates"/>.</summary>
    public Rung BestRung { get; set; } = Rung.TransactionOfUpdates;

    /// <summary>LOINC code of the document's type where the report is written as a document. Default <c>28578-3</c>, occupational therapy note.</summary>
    public string DocumentType { get; set; } = "28578-3";

    /// <summary>What to do when the target keeps something other than what was sent. Default: record it.</summary>
    public DifferenceAction OnDifference { get; set; } = DifferenceAction.Record;

    /// <summary>Headers sent with each request, for example a tenant's. Default none.</summary>
    public IDictionary<string, string> Headers { get; } = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);

    /// <summary>How to sign in. Default not at all.</summary>
    public SignInOptions SignIn { get; set; } = new();
}
