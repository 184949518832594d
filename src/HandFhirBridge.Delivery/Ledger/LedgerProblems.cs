using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Expected failures of the ledger, HFB5xxx.</summary>
public static class LedgerProblems
{
    /// <summary>Same session and revision, other content.</summary>
    public static readonly ProblemKind OtherContent = new(
        "HFB5001", Severity.Error, "conflict", 409, false, "Other content was accepted under this session and revision",
        "Submit a correction as the next revision, or give a new session a sessionId of its own.");

    /// <summary>A later revision is there already.</summary>
    public static readonly ProblemKind OlderRevision = new(
        "HFB5002", Severity.Error, "conflict", 409, false, "A later revision of this session was accepted",
        "Submit the correction with a revision above the one the ledger holds.");

    /// <summary>Another process keeps the file locked.</summary>
    public static readonly ProblemKind Locked = new(
        "HFB5003", Severity.Error, "lock-error", 503, true, "The ledger is locked by another process",
        "Stop the other process that has the ledger's file open, or wait for it to finish.");

    /// <summary>The file is not a sound database.</summary>
    public static readonly ProblemKind Corrupt = new(
        "HFB5004", Severity.Error, "exception", 500, false, "The ledger's file is damaged",
        "Stop the service, keep the file, and restore the ledger from the last backup.");

    /// <summary>No room.</summary>
    public static readonly ProblemKind DiskFull = new(
        "HFB5005", Severity.Error, "no-store", 507, true, "The disk of the ledger is full",
        "Free space on the disk that holds the ledger; what was accepted before is safe.");

    /// <summary>Written by a later version of the program.</summary>
    public static readonly ProblemKind NewerSchema = new(
        "HFB5006", Severity.Error, "not-supported", 500, false, "The ledger was written by a later version",
        "Start the version that wrote the ledger, or restore the backup made before the upgrade.");

    /// <summary>Cannot be opened or written.</summary>
    public static readonly ProblemKind Unusable = new(
        "HFB5007", Severity.Error, "exception", 500, true, "The ledger cannot be opened or written",
        "Check that the folder exists, that the service may write in it, and that the disk works.");

    /// <summary>Sealed with a key that is not at hand.</summary>
    public static readonly ProblemKind Sealed = new(
        "HFB5008", Severity.Error, "security", 500, false, "A session in the ledger cannot be unsealed",
        "Put the data protection keys back that were in use when it was accepted.");

    /// <summary>A correction that would carry results from one chart into another.</summary>
    public static readonly ProblemKind OtherPatient = new(
        "HFB5009", Severity.Error, "conflict", 409, false, "The correction names another patient",
        "Withdraw the session from the wrong chart and submit it again under a new sessionId for the right patient.");

    /// <summary>Nothing comes after a withdrawal.</summary>
    public static readonly ProblemKind Withdrawn = new(
        "HFB5010", Severity.Error, "conflict", 409, false, "The session was withdrawn",
        "Nothing more is to be done for the withdrawal; results that shall stand are submitted as a new session under a sessionId of its own.");

    /// <summary>A person does not want it sent for now.</summary>
    public static readonly ProblemKind HeldByPerson = new(
        "HFB5011", Severity.Error, "business-rule", 409, false, "A person stopped the session",
        "Read who stopped it and why in its decisions; retry it when that is settled.");

    /// <summary>PostgreSQL does not answer.</summary>
    public static readonly ProblemKind Unreachable = new(
        "HFB5020", Severity.Error, "transient", 503, true, "The ledger's database cannot be reached",
        "Check that PostgreSQL runs and takes connections from this machine; it is tried again, and what was accepted before is safe.");

    /// <summary>PostgreSQL answers and does not let us work.</summary>
    public static readonly ProblemKind Refused = new(
        "HFB5021", Severity.Error, "security", 500, false, "The ledger's database does not let the service in",
        "Check user, password and database of the connection string, and that the user may create tables in it.");

    /// <summary>PostgreSQL is set to lose commits.</summary>
    public static readonly ProblemKind UnsafeCommits = new(
        "HFB5022", Severity.Error, "not-supported", 500, false, "The ledger's database may lose what it has confirmed",
        "Set fsync to on, and synchronous_commit to on or stronger, for the ledger's database, then start again.");

    /// <summary>This instance's key ring is another than the one of those that share the ledger.</summary>
    public static readonly ProblemKind OtherKeys = new(
        "HFB5023", Severity.Error, "security", 500, false, "The ledger was sealed with other keys",
        "Let all instances use one key folder (Ledger:KeysDirectory); if it was lost, restore it from its backup.");

    /// <summary>All of them, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(LedgerProblems));
}
