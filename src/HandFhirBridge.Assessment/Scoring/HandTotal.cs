using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>A total of one hand.</summary>
/// <param name="TotalId">Which total; six-task and seven-task totals are different quantities.</param>
/// <param name="Hand">The hand.</param>
/// <param name="Role">Its role.</param>
/// <param name="Seconds">Exact sum of the counted, completed trials; null if any task is missing.</param>
/// <param name="MissingTasks">Tasks that were not completed; empty exactly when there is a sum.</param>
/// <param name="NormMean">Sum of the task means of one norm set for the same tasks, shown without SD (a total's SD cannot be had from task SDs); null if a cell is missing or the total is.</param>
public sealed record HandTotal(
    string TotalId, Hand Hand, HandRole Role, decimal? Seconds, ImmutableArray<string> MissingTasks, decimal? NormMean);
