using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>Why no chart was chosen, HFB41xx. Messages hold nothing from any chart.</summary>
public static class IdentityProblems
{
    /// <summary>Nobody carries the identifier.</summary>
    public static readonly ProblemKind NotFound = Held(
        "HFB4101", "not-found", "The target has no patient with this identifier",
        "Check identifier system and value against the wristband or order; have the patient registered at the target, then retry.");

    /// <summary>Two or more charts carry it.</summary>
    public static readonly ProblemKind Several = Held(
        "HFB4102", "multiple-matches", "More than one patient at the target carries this identifier",
        "Have the records department merge or correct the charts, then retry.");

    /// <summary>The search cannot be relied on.</summary>
    public static readonly ProblemKind SearchNotTrusted = Held(
        "HFB4103", "incomplete", "The target's answer to the patient search cannot be relied on",
        "Ask the target's maker whether Patient?identifier=system|value is supported; until it is, sessions stay held.");

    /// <summary>Not in use.</summary>
    public static readonly ProblemKind Inactive = Held(
        "HFB4104", "business-rule", "The patient's chart is not active",
        "Have the records department name the active chart, then retry.");

    /// <summary>Dead.</summary>
    public static readonly ProblemKind Deceased = Held(
        "HFB4105", "business-rule", "The chart says that the patient has died",
        "Make sure that it is the right chart and that the result is still to be recorded.");

    /// <summary>Merged in a way that leaves no single chart.</summary>
    public static readonly ProblemKind ReplacedUnclear = Held(
        "HFB4106", "business-rule", "The chart was replaced, and which chart stands for it is not clear",
        "Have the records department correct the links between the charts, then retry.");

    /// <summary>Another day.</summary>
    public static readonly ProblemKind OtherBirthDate = Held(
        "HFB4107", "business-rule", "The birth date does not agree with the chart",
        "Compare session and chart; submit a corrected revision, or have the chart corrected and retry.");

    /// <summary>No whole date.</summary>
    public static readonly ProblemKind NoBirthDate = Held(
        "HFB4108", "business-rule", "The chart holds no complete birth date to compare",
        "Have the birth date entered in the chart, then retry.");

    /// <summary>Another name.</summary>
    public static readonly ProblemKind OtherFamilyName = Held(
        "HFB4109", "business-rule", "The family name does not agree with any current name in the chart",
        "Compare session and chart; submit a corrected revision, or have the chart corrected and retry.");

    /// <summary>An old number.</summary>
    public static readonly ProblemKind IdentifierEnded = Held(
        "HFB4110", "business-rule", "The chart marks this identifier as no longer in use",
        "Look up the identifier in use now and submit a corrected revision.");

    /// <summary>Chosen by a person, and not there.</summary>
    public static readonly ProblemKind ChosenGone = Held(
        "HFB4111", "not-found", "The chart that a person chose is not at the target",
        "Check the id at the target and choose again with: ledger resolve.");

    /// <summary>All of them, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(IdentityProblems));

    private static ProblemKind Held(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 409, false, title, remedy);
}
