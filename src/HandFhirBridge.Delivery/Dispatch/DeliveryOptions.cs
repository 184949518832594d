using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Ledger, targets and dispatch.</summary>
public sealed class DeliveryOptions
{
    /// <summary>Path of the ledger's SQLite file. Default <c>data/ledger.db</c>, relative to the working directory.</summary>
    public string LedgerPath { get; set; } = Path.Combine("data", "ledger.db");

    /// <summary>
    /// Names the connection string of a PostgreSQL ledger, as <c>env:NAME</c> or <c>file:PATH</c>; null keeps the ledger in
    /// <see cref="LedgerPath"/>. Default null.
    /// </summary>
    public string? LedgerConnection { get; set; }

    /// <summary>Folder in which is kept what is known of the targets; null forgets it at each restart. Default null.</summary>
    public string? TargetKnowledgePath { get; set; }

    /// <summary>True seals payloads with ASP.NET Core Data Protection, whose keys the composition root must persist. Default false.</summary>
    public bool SealPayloads { get; set; }

    /// <summary>Sessions sent at the same time to all targets together, never two of one patient. Default 4, range 1 to 64.</summary>
    public int Concurrency { get; set; } = 4;

    /// <summary>How often to look for what another process accepted. Default 1 s, range 100 ms to 1 min.</summary>
    public TimeSpan PollInterval { get; set; } = TimeSpan.FromSeconds(1);

    /// <summary>Time after which a session whose worker fell silent is taken over; an attempt may take four fifths of it. Default 10 min, range 1 min to 1 h.</summary>
    public TimeSpan LeaseDuration { get; set; } = TimeSpan.FromMinutes(10);

    /// <summary>True if no other process delivers from this ledger: what a killed process left is then due after <see cref="RetryOptions.FirstAfterError"/>. Default true.</summary>
    public bool SingleInstance { get; set; } = true;

    /// <summary>Waits between attempts.</summary>
    public RetryOptions Retry { get; } = new();

    /// <summary>Servers that are written to; at least one.</summary>
    public IList<TargetOptions> Targets { get; } = [];
}
