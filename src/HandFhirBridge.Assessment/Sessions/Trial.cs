using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>One task given once with one hand.</summary>
/// <param name="Task">Id in the instrument's definition.</param>
/// <param name="Hand">The hand tested.</param>
/// <param name="Outcome">How it ended.</param>
/// <param name="Seconds">Seconds exactly as entered, trailing zeros included; for <see cref="TrialOutcome.StoppedAtCap"/> the cap in force; null for outcomes without a time.</param>
/// <param name="StartedAt">When it began; null if not recorded, then the session's start stands for it.</param>
/// <param name="Source">Where the seconds come from; null when there are none.</param>
/// <param name="Counted">True for the one attempt of this task and hand that counts; a repeated trial keeps its other attempts with false.</param>
/// <param name="Departures">Departure ids of the instrument's definition noted for this trial.</param>
/// <param name="Reason">Why it was not given, is void, was declined or impossible; required for not-given and void.</param>
/// <param name="Note">Free text; null if none.</param>
public sealed record Trial(
    string Task,
    Hand Hand,
    TrialOutcome Outcome,
    decimal? Seconds,
    DateTimeOffset? StartedAt,
    TimeSource? Source,
    bool Counted,
    ImmutableArray<string> Departures,
    string? Reason,
    string? Note);
