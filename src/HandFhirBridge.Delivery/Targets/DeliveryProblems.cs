using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Expected failures of delivery, HFB40xx. Those of finding the patient are <see cref="Identity.IdentityProblems"/>.</summary>
public static class DeliveryProblems
{
    /// <summary>No connection; nothing was sent.</summary>
    public static readonly ProblemKind Unreachable = new(
        "HFB4001", Severity.Warning, "transient", 503, true, "The target cannot be reached",
        "Nothing to do: it is tried again. If it lasts, check the target's base URL, its certificate and the network.");

    /// <summary>Time-out, reset, 408, 502, 503 or 504.</summary>
    public static readonly ProblemKind OutcomeUnknown = new(
        "HFB4002", Severity.Warning, "timeout", 504, true, "The target did not say whether it stored the session",
        "Nothing to do: the next attempt searches for the session before it writes.");

    /// <summary>429.</summary>
    public static readonly ProblemKind TooManyRequests = new(
        "HFB4003", Severity.Warning, "throttled", 429, true, "The target asks for fewer requests",
        "Nothing to do: it is tried again when the target says. If it lasts, lower the target's concurrency.");

    /// <summary>A 4xx that would come again.</summary>
    public static readonly ProblemKind Refused = new(
        "HFB4004", Severity.Error, "processing", 502, false, "The target refused the session",
        "Read the target's answer, correct its cause there or in the session, then retry.");

    /// <summary>Some entries of an answered transaction failed, or are not there.</summary>
    public static readonly ProblemKind StoredInPart = new(
        "HFB4005", Severity.Error, "incomplete", 502, true, "The target stored only a part of the session",
        "It is completed at the next attempt. If it lasts, ask the target's maker why a transaction is stored in part.");

    /// <summary>500 and other server errors.</summary>
    public static readonly ProblemKind ServerError = new(
        "HFB4006", Severity.Error, "exception", 502, true, "The target failed on the session",
        "It is tried a few times. If it lasts, give the target's operator the time and the answer.");

    /// <summary>No way of writing fits.</summary>
    public static readonly ProblemKind NoRung = new(
        "HFB4007", Severity.Error, "not-supported", 501, false, "The target offers no way of writing that the bridge has",
        "Have transactions, single creates, or at least the creation of DocumentReference turned on at the target, then retry.");

    /// <summary>401 or 403.</summary>
    public static readonly ProblemKind NotAuthorized = new(
        "HFB4008", Severity.Error, "forbidden", 502, false, "The target does not let the bridge in",
        "Check the target's sign-in settings and the permissions granted to the bridge there, then retry.");

    /// <summary>No token.</summary>
    public static readonly ProblemKind SignInFailed = new(
        "HFB4009", Severity.Warning, "login", 502, true, "The bridge could not sign in to the target",
        "It is tried again. If it lasts, check the sign-in settings and the authorization server.");

    /// <summary>409 or 412.</summary>
    public static readonly ProblemKind Conflict = new(
        "HFB4010", Severity.Warning, "conflict", 409, true, "The target reports a conflict with another write",
        "Nothing to do: the session is looked for and tried again.");

    /// <summary>More than one resource carries an identifier that only one may carry.</summary>
    public static readonly ProblemKind Duplicates = new(
        "HFB4011", Severity.Error, "duplicate", 409, false, "The target holds a part of the session more than once",
        "Have a person compare the copies at the target and remove the wrong one, then retry.");

    /// <summary>Not FHIR.</summary>
    public static readonly ProblemKind UnusableAnswer = new(
        "HFB4012", Severity.Error, "structure", 502, true, "The target's answer is not FHIR R4 JSON",
        "Check that the base URL is the FHIR base and that no proxy or sign-in page answers in its place.");

    /// <summary>A name that no setting explains.</summary>
    public static readonly ProblemKind UnknownTarget = new(
        "HFB4013", Severity.Error, "not-found", 500, false, "The target is not configured",
        "Configure a target of this name, then retry.");

    /// <summary>Another version of FHIR.</summary>
    public static readonly ProblemKind OtherVersion = new(
        "HFB4014", Severity.Error, "not-supported", 501, false, "The target does not speak FHIR R4",
        "Set the base URL of the target's FHIR R4 (4.0) endpoint, then retry.");

    /// <summary>Found under another subject.</summary>
    public static readonly ProblemKind OtherChart = new(
        "HFB4015", Severity.Error, "conflict", 409, false, "The session is recorded in another chart",
        "Have a person find out which chart is right; correct it at the target, then retry.");

    /// <summary>3xx.</summary>
    public static readonly ProblemKind Redirected = new(
        "HFB4016", Severity.Error, "processing", 502, false, "The target points to another address",
        "Set the target's base URL to the address it points to; the bridge never follows with patient data by itself.");

    /// <summary>A fault of the bridge itself.</summary>
    public static readonly ProblemKind Fault = new(
        "HFB4017", Severity.Error, "exception", 500, true, "The bridge failed on the session",
        "It is tried a few times. If it lasts, report it with the time and the log entry.");

    /// <summary>Other resources came than were asked for, or not all.</summary>
    public static readonly ProblemKind SearchNotTrusted = new(
        "HFB4018", Severity.Error, "incomplete", 409, false, "The target's answer to the search for the session cannot be relied on",
        "Ask the target's maker for searches by identifier or by patient; compare by hand what the chart holds of the session, then retry.");

    /// <summary>Refused half-way, and taken back.</summary>
    public static readonly ProblemKind TakenBack = new(
        "HFB4019", Severity.Error, "processing", 502, false, "The target refused a part of the session; what it had stored is marked entered-in-error",
        "Read the target's answer, correct its cause there or in the session, then retry: what is marked is then restored.");

    /// <summary>What was read back is not what was sent.</summary>
    public static readonly ProblemKind KeptDifferently = new(
        "HFB4020", Severity.Warning, "business-rule", 502, false, "The target keeps something other than what was sent",
        "Compare the attempt's list of differences with the chart. If they do no harm, retry a held session to let it stand; else correct the target.");

    /// <summary>A correction that could only be written beside what it corrects.</summary>
    public static readonly ProblemKind OtherForm = new(
        "HFB4021", Severity.Error, "conflict", 409, false, "The session lies at the target in a form that it no longer takes",
        "Have the way of writing it was first delivered by turned on again at the target, or mark the old results there by hand; then retry.");

    /// <summary>All of them, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(DeliveryProblems));
}
