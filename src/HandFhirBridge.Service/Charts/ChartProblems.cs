using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Charts;

/// <summary>Expected failures of the chart page, HFB604x to HFB605x.</summary>
public static class ChartProblems
{
    /// <summary>None or several patients carry the identifier asked for.</summary>
    public static ProblemKind NoOnePatient { get; } = new(
        "HFB6040", Severity.Error, "not-found", 404, false, "No one patient", "Check the numbering and the number against the chart.");

    /// <summary>The record that opened the page is not in the settings.</summary>
    public static ProblemKind UnknownServer { get; } = new(
        "HFB6041", Severity.Error, "forbidden", 403, false, "Unknown record", "Open the page from a record that is set up for it, or have its address added to Chart:Servers.");

    /// <summary>The record does not say how to sign in to it.</summary>
    public static ProblemKind SignInUnknown { get; } = new(
        "HFB6042", Severity.Error, "transient", 502, true, "Record cannot be signed in to",
        "Try again; if it stays so, ask the record's administrator whether SMART App Launch is turned on.");

    /// <summary>The answer belongs to no sign-in that this browser began, or to one begun too long ago.</summary>
    public static ProblemKind SignInNotBegunHere { get; } = new(
        "HFB6043", Severity.Error, "security", 400, false, "Sign-in not begun here", "Open the page from the record again, in one window, with cookies allowed.");

    /// <summary>The user did not agree.</summary>
    public static ProblemKind UserRefused { get; } = new(
        "HFB6044", Severity.Error, "forbidden", 403, false, "Access not given", "Open the page again and agree, if you want to see the course here.");

    /// <summary>The record refused the sign-in.</summary>
    public static ProblemKind SignInRefused { get; } = new(
        "HFB6045", Severity.Error, "forbidden", 403, false, "Record refused the sign-in",
        "Have its administrator compare client id, redirect address and FHIR address with the registration of this page.");

    /// <summary>The user may not read what a course is made of.</summary>
    public static ProblemKind ScopeMissing { get; } = new(
        "HFB6046", Severity.Error, "forbidden", 403, false, "Not allowed to read the results",
        "Have the record allow this page to read DiagnosticReport, Observation and QuestionnaireResponse of the patient.");

    /// <summary>The record named no patient.</summary>
    public static ProblemKind NoPatientOpen { get; } = new(
        "HFB6047", Severity.Error, "business-rule", 403, false, "No patient chosen", "Choose a patient in the record and open the page from there.");

    /// <summary>There is no access any more.</summary>
    public static ProblemKind AccessEnded { get; } = new(
        "HFB6048", Severity.Error, "login", 401, false, "Access has ended", "Open the page from the record again.");

    /// <summary>The answer comes from another authorization server than the one that was asked.</summary>
    public static ProblemKind WrongIssuer { get; } = new(
        "HFB6049", Severity.Error, "security", 403, false, "Answer from another server", "Open the page from the record again; if it happens again, tell whoever runs this service.");

    /// <summary>Every kind of this table.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ChartProblems));
}
