using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Service.Reports;

/// <summary>What a reader of one session needs, made from the resources as they stand in the record. Every rendering of a report is made of it.</summary>
public sealed record SessionReport
{
    /// <summary>Clinic id.</summary>
    public required string Site { get; init; }

    /// <summary>Name of the clinic; null if the resources give none.</summary>
    public required string? ClinicName { get; init; }

    /// <summary>Session id.</summary>
    public required string SessionId { get; init; }

    /// <summary>Revision shown.</summary>
    public required int Revision { get; init; }

    /// <summary>How the report stands; a withdrawn one has no report but a <see cref="WithdrawalNotice"/>.</summary>
    public required ReportStatus Status { get; init; }

    /// <summary>When this version was issued.</summary>
    public required DateTimeOffset Issued { get; init; }

    /// <summary>Name of the test.</summary>
    public required string Instrument { get; init; }

    /// <summary>Identifier of the chart.</summary>
    public required BusinessIdentifier Patient { get; init; }

    /// <summary>Family name as the session has it.</summary>
    public required string FamilyName { get; init; }

    /// <summary>Birth date.</summary>
    public required DateOnly BirthDate { get; init; }

    /// <summary>When it was given.</summary>
    public required DateTimeOffset StartedAt { get; init; }

    /// <summary>When it ended.</summary>
    public required DateTimeOffset EndedAt { get; init; }

    /// <summary>Age on that day.</summary>
    public required int AgeInYears { get; init; }

    /// <summary>Who gave it.</summary>
    public required string Performer { get; init; }

    /// <summary>In what capacity.</summary>
    public required PerformerRole PerformerRole { get; init; }

    /// <summary>Identifier of the order; null if there was none.</summary>
    public required BusinessIdentifier? Order { get; init; }

    /// <summary>Handedness.</summary>
    public required Dominance Dominance { get; init; }

    /// <summary>Which norms apply.</summary>
    public required SexForNorm SexForNorm { get; init; }

    /// <summary>Cap in force, seconds; null if none.</summary>
    public required decimal? CapSeconds { get; init; }

    /// <summary>True if a norm from memory was used; such a report says nothing about a patient.</summary>
    public required bool Demonstration { get; init; }

    /// <summary>True if the trials did not run in the standard order.</summary>
    public required bool OrderDeparted { get; init; }

    /// <summary>Set-up and precautions in words.</summary>
    public required ImmutableArray<TestCondition> Conditions { get; init; }

    /// <summary>What was not as the instrument asks, in words; empty if all was.</summary>
    public required ImmutableArray<string> NotStandard { get; init; }

    /// <summary>The therapist's remarks on the whole; null if none.</summary>
    public required string? Comment { get; init; }

    /// <summary>Counted trials: tasks in standard order, non-dominant hand first.</summary>
    public required ImmutableArray<ReportRow> Rows { get; init; }

    /// <summary>Attempts that were repeated.</summary>
    public required ImmutableArray<ReportRow> NotCounted { get; init; }

    /// <summary>Totals per hand.</summary>
    public required ImmutableArray<ReportTotal> Totals { get; init; }

    /// <summary>Non-dominant minus dominant per task and total.</summary>
    public required ImmutableArray<ReportDifference> Differences { get; init; }

    /// <summary>Whether an earlier session was looked for, and with what success.</summary>
    public required EarlierSession Earlier { get; init; }

    /// <summary>Change since the earlier session compared with; empty if there is none.</summary>
    public required ImmutableArray<ReportChange> Change { get; init; }

    /// <summary>Each norm set used: id, version, evidence, citation.</summary>
    public required ImmutableArray<ReportNormSource> NormSources { get; init; }

    /// <summary>Conclusion as it stands in the record; null if the record has none.</summary>
    public required ReportConclusion? Conclusion { get; init; }

    /// <summary>What not to conclude.</summary>
    public required string Caution { get; init; }
}
