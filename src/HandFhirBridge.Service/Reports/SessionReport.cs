using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Reports;

/// <summary>What a reader of one session needs, made from the resources as they stand in the record.</summary>
/// <param name="Site">Clinic id.</param>
/// <param name="SessionId">Session id.</param>
/// <param name="Revision">Revision shown.</param>
/// <param name="Patient">Identifier of the chart.</param>
/// <param name="StartedAt">When it was given.</param>
/// <param name="AgeInYears">Age on that day.</param>
/// <param name="Performer">Who gave it.</param>
/// <param name="Dominance">Handedness.</param>
/// <param name="SexForNorm">Which norms apply.</param>
/// <param name="CapSeconds">Cap in force, seconds; null if none.</param>
/// <param name="Demonstration">True if a norm from memory was used; such a report says nothing about a patient.</param>
/// <param name="OrderDeparted">True if the trials did not run in the standard order.</param>
/// <param name="Rows">Counted trials: tasks in standard order, non-dominant hand first.</param>
/// <param name="NotCounted">Attempts that were repeated.</param>
/// <param name="Totals">Totals per hand.</param>
/// <param name="Differences">Non-dominant minus dominant per task and total.</param>
/// <param name="Change">Change since the earlier session compared with; empty if there is none.</param>
/// <param name="NormSources">Each norm set used: id, version, evidence, citation.</param>
/// <param name="Caution">What not to conclude.</param>
public sealed record SessionReport(
    string Site,
    string SessionId,
    int Revision,
    BusinessIdentifier Patient,
    DateTimeOffset StartedAt,
    int AgeInYears,
    string Performer,
    Dominance Dominance,
    SexForNorm SexForNorm,
    decimal? CapSeconds,
    bool Demonstration,
    bool OrderDeparted,
    ImmutableArray<ReportRow> Rows,
    ImmutableArray<ReportRow> NotCounted,
    ImmutableArray<ReportTotal> Totals,
    ImmutableArray<ReportDifference> Differences,
    ImmutableArray<ReportChange> Change,
    ImmutableArray<ReportNormSource> NormSources,
    string Caution);
