using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>Expected failures of the service itself, HFB6xxx.</summary>
public static class ServiceProblems
{
    /// <summary>The session's site is not in the settings.</summary>
    public static ProblemKind UnknownSite { get; } = new(
        "HFB6001", Severity.Error, "business-rule", 422, false, "Unknown site", "Add the site to the settings or correct the document.");

    /// <summary>A session asked for by site and id is not in the ledger.</summary>
    public static ProblemKind NoSuchSession { get; } = new(
        "HFB6002", Severity.Error, "not-found", 404, false, "No such session", "Check site and session id; list what is held with: ledger list.");

    /// <summary><see cref="NoSuchSession"/> of a session.</summary>
    /// <param name="site">Clinic.</param>
    /// <param name="id">The client's id.</param>
    /// <param name="revision">Revision asked for; null for any.</param>
    public static Problem NoSession(string site, string id, int? revision = null) =>
        NoSuchSession.At("", $"The ledger holds no session {site}/{id}{(revision is null ? "" : $" in revision {revision}")}.", $"{site}/{id}");

    /// <summary>The report of a session is not in the record yet.</summary>
    public static ProblemKind NotInRecord { get; } = new(
        "HFB6003", Severity.Error, "not-found", 404, true, "Not in the record", "Ask for the session's state; try again once it is delivered.");

    /// <summary>The target server could not be read.</summary>
    public static ProblemKind TargetUnreadable { get; } = new(
        "HFB6004", Severity.Error, "transient", 502, true, "Target cannot be read", "Check that the FHIR server is up and try again.");

    /// <summary>The body of a request is larger than a session document may be.</summary>
    public static ProblemKind BodyTooLarge { get; } = new(
        "HFB6005", Severity.Error, "too-long", 413, false, "Body too large", "Send one session document a request, at most 1 MiB.");

    /// <summary>The body of a request is not declared as JSON.</summary>
    public static ProblemKind UnsupportedMediaType { get; } = new(
        "HFB6006", Severity.Error, "not-supported", 415, false, "Unsupported media type", "Send the session document with Content-Type: application/json.");

    /// <summary>The caller is not signed in.</summary>
    public static ProblemKind NotSignedIn { get; } = new(
        "HFB6010", Severity.Error, "login", 401, false, "Not signed in", "Send Authorization: Bearer with an access token or a machine key.");

    /// <summary>The caller may not do this.</summary>
    public static ProblemKind NotAllowed { get; } = new(
        "HFB6011", Severity.Error, "forbidden", 403, false, "Not allowed", "Use a token or key with the scope this needs.");

    /// <summary>There is nothing at this address, or not by this method.</summary>
    public static ProblemKind NoSuchAddress { get; } = new(
        "HFB6012", Severity.Error, "not-found", 404, false, "No such address", "See /openapi/v1.json for what there is.");

    /// <summary>No instrument has the id asked for.</summary>
    public static ProblemKind NoSuchInstrument { get; } = new(
        "HFB6007", Severity.Error, "not-found", 404, false, "No such instrument", "Use the id of an instrument this service knows, for example seven-task.");

    /// <summary>The ledger cannot be written or read.</summary>
    public static ProblemKind LedgerUnusable { get; } = new(
        "HFB6008", Severity.Error, "transient", 503, true, "Ledger unusable", "Check free space and permissions of the data directory, or the ledger's database, then send again.");

    /// <summary>A defect of this service.</summary>
    public static ProblemKind Unexpected { get; } = new(
        "HFB6009", Severity.Error, "exception", 500, true, "Unexpected failure", "Send again; if it happens again, report it with the time.");

    /// <summary>The package has no questionnaire of the id asked for.</summary>
    public static ProblemKind NoSuchQuestionnaire { get; } = new(
        "HFB6013", Severity.Error, "not-found", 404, false, "No such Questionnaire", "Ask for hfb-session or hfb-setup.");

    /// <summary>A withdrawal without a proper reason or name.</summary>
    public static ProblemKind WithdrawalIncomplete { get; } = new(
        "HFB6020", Severity.Error, "invalid", 422, false, "Withdrawal incomplete",
        "Send a JSON object with reason (1 to 1,000 characters) and by (1 to 200 characters) and nothing else.");

    /// <summary>A decision about sessions without a proper reason, name or choice.</summary>
    public static ProblemKind DecisionIncomplete { get; } = new(
        "HFB6021", Severity.Error, "invalid", 422, false, "Decision incomplete",
        "Send a JSON object with reason (1 to 1,000 characters), by (1 to 200 characters) and what /openapi/v1.json names beside them.");

    /// <summary>What a person wants to do is not possible as the session stands.</summary>
    public static ProblemKind NotInThatState { get; } = new(
        "HFB6022", Severity.Error, "conflict", 409, false, "Not possible as the session stands",
        "Look at the session again: held and failed ones can be retried, held ones resolved, waiting ones held.");

    /// <summary>A list of the ledger was asked for in a way that has no answer.</summary>
    public static ProblemKind LedgerQuestion { get; } = new(
        "HFB6023", Severity.Error, "invalid", 400, false, "Question to the ledger not understood", "See /openapi/v1.json for what can be asked.");

    /// <summary>Every kind of this table.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ServiceProblems));
}
