using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Service.Settings;

/// <summary>Where results go.</summary>
public sealed class TargetSettings
{
    /// <summary>Name in the ledger, and in the <c>Target</c> of sites. Default <c>default</c>, which is the name of <c>Target</c>; those in <c>Targets</c> have others.</summary>
    public string Name { get; set; } = Delivery.Ledger.AcceptedSession.DefaultTarget;

    /// <summary>Base URL of a FHIR R4 server, for example <c>https://fhir.clinic.example/r4</c>; null delivers to the embedded record.</summary>
    public string? BaseUrl { get; set; }

    /// <summary>How to sign in to it. Default not at all.</summary>
    public SignInOptions SignIn { get; set; } = new();

    /// <summary>Loopback port of the embedded record when <see cref="BaseUrl"/> is null. Default 8091; 0 takes a free one.</summary>
    public int EmbeddedPort { get; set; } = 8091;

    /// <summary>Sessions sent at the same time, never two of one patient. Default 4, range 1 to 64.</summary>
    public int Concurrency { get; set; } = 4;

    /// <summary>Most sessions begun in a minute, spread evenly; null does not limit. Default null, range 1 to 6,000.</summary>
    public int? SessionsPerMinute { get; set; }

    /// <summary>Longest wait for one answer, in seconds. Default 30, range 1 to 600.</summary>
    public int TimeoutSeconds { get; set; } = 30;

    /// <summary>What to do when the server keeps something other than what was sent. Default: record it.</summary>
    public DifferenceAction OnDifference { get; set; } = DifferenceAction.Record;

    /// <summary>True asks the server, where no chart is surely the right one, which could be meant; it is shown to the person who decides. Default false.</summary>
    public bool ProposePatients { get; set; }

    /// <summary>True creates a chart where nobody carries the identifier: for a site's own server alone. Default false.</summary>
    public bool CreatePatients { get; set; }

    /// <summary>Best rung that is tried. Default <see cref="Rung.TransactionOfUpdates"/>, the first.</summary>
    public Rung BestRung { get; set; } = Rung.TransactionOfUpdates;

    /// <summary>LOINC code of the document's type where the report is written as a document. Default <c>28578-3</c>, occupational therapy note.</summary>
    public string DocumentType { get; set; } = "28578-3";
}
