using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Settings;

/// <summary>
/// Everything a site can set. Read from <c>handfhirbridge.json</c> in the working directory (or the file named by
/// <c>--config</c>) and from environment variables that begin with <c>HFB_</c>; the environment wins.
/// </summary>
public sealed class BridgeSettings
{
    /// <summary>Folder of the ledger, the embedded record and the site's norm tables. Default <c>data</c>, relative to the working directory.</summary>
    public string DataDirectory { get; set; } = "data";

    /// <summary>True lets norms from memory score, and marks everything they touch as a demonstration. Default false. Never for patients.</summary>
    public bool Demonstration { get; set; }

    /// <summary>Address the HTTP API listens on. Default <c>http://127.0.0.1:8090</c>.</summary>
    public string Listen { get; set; } = "http://127.0.0.1:8090";

    /// <summary>Who may call the HTTP API. Without any sign-in only a demonstration on loopback starts.</summary>
    public SecuritySettings Security { get; set; } = new();

    /// <summary>Where accepted sessions are kept.</summary>
    public LedgerSettings Ledger { get; set; } = new();

    /// <summary>The FHIR server results are delivered to.</summary>
    public TargetSettings Target { get; set; } = new();

    /// <summary>What those who watch the service are told.</summary>
    public TelemetrySettings Telemetry { get; set; } = new();

    /// <summary>Further servers, for the sites that name them; empty delivers everything to <see cref="Target"/>.</summary>
    public IList<TargetSettings> Targets { get; } = [];

    /// <summary>Clinics whose sessions are accepted; empty accepts any site id and names the clinic by it.</summary>
    public IList<SiteSettings> Sites { get; } = [];

    /// <summary>Measurement errors used to judge change between visits; empty gives no verdict on change.</summary>
    public IList<MeasurementErrorSettings> MeasurementErrors { get; } = [];

    /// <summary>The chart page opened from a record.</summary>
    public ChartSettings Chart { get; set; } = new();

    /// <summary>What leaves the house about groups.</summary>
    public OutcomeSettings Outcomes { get; set; } = new();

    /// <summary>Path of the ledger's database file.</summary>
    public string LedgerPath => Path.Combine(DataDirectory, "ledger.db");

    /// <summary>Path of the embedded record's database file.</summary>
    public string RecordPath => Path.Combine(DataDirectory, "record.db");

    /// <summary>Folder of what is known of targets.</summary>
    public string TargetsDirectory => Path.Combine(DataDirectory, "targets");

    /// <summary>Folder of norm tables the site entered.</summary>
    public string NormsDirectory => Path.Combine(DataDirectory, "norms");

    /// <summary>Where it is kept who read or wrote which patient's data.</summary>
    public string AuditDirectory => Path.Combine(DataDirectory, "audit");
}
