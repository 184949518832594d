using System.Collections.Immutable;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Charts;

/// <summary>The course of one patient over time: what picture, table and file are all made of.</summary>
/// <param name="Sessions">Sessions shown, oldest first.</param>
/// <param name="Series">One for each task or total and hand: tasks in standard order, then totals, left before right.</param>
/// <param name="NotShown">Sessions that stand in the chart and cannot be shown, with the reason.</param>
/// <param name="Withdrawn">Number of sessions left out because they were entered in error.</param>
/// <param name="SeveralPatients">True if the sessions name different patients, so that some may be in the wrong chart.</param>
/// <param name="Demonstration">True if any norm is from memory.</param>
/// <param name="NormSources">Each norm set shown.</param>
/// <param name="ErrorSources">Each measurement error used: population, level and citation.</param>
/// <param name="Caution">What not to conclude.</param>
public sealed record Course(
    ImmutableArray<CourseSession> Sessions,
    ImmutableArray<CourseSeries> Series,
    ImmutableArray<SessionNotShown> NotShown,
    int Withdrawn,
    bool SeveralPatients,
    bool Demonstration,
    ImmutableArray<ReportNormSource> NormSources,
    ImmutableArray<string> ErrorSources,
    string Caution);
