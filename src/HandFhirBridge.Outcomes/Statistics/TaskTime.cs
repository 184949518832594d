namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>How long a task took, as often as it took that long.</summary>
/// <param name="Seconds">Time; for a stopped trial the cap, which says only that the task took longer.</param>
/// <param name="Finished">False for a stopped trial: right-censored at <paramref name="Seconds"/>.</param>
/// <param name="Count">Trials with this time.</param>
public readonly record struct TaskTime(double Seconds, bool Finished, int Count = 1);
