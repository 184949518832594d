using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Reports;

/// <summary>A total of one hand.</summary>
/// <param name="Total">Total id; six-task and seven-task totals are different quantities.</param>
/// <param name="Hand">Hand.</param>
/// <param name="Role">Its role.</param>
/// <param name="Seconds">Sum in seconds; null if a task was not completed.</param>
/// <param name="MissingTasks">Tasks not completed.</param>
/// <param name="NormMean">Sum of the norm means, seconds; a total has no norm SD.</param>
public sealed record ReportTotal(
    string Total, Hand Hand, HandRole Role, decimal? Seconds, ImmutableArray<string> MissingTasks, decimal? NormMean);
