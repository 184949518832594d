namespace HandFhirBridge.Outcomes.Gather;

/// <summary>How far a source is.</summary>
/// <param name="Source">Its name.</param>
/// <param name="Doing">What is being done, such as <c>Observation</c> or <c>export 40 %</c>.</param>
/// <param name="Read">Resources of ours read so far.</param>
public readonly record struct GatherProgress(string Source, string Doing, long Read);
