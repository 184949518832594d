using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>Definition of a standardized instrument, as data.</summary>
/// <param name="Id">Stable id, for example <c>seven-task</c>.</param>
/// <param name="Version">Version of this definition.</param>
/// <param name="Title">Name.</param>
/// <param name="Unit">UCUM code of the result, <c>s</c>.</param>
/// <param name="Better">Direction of better; for times, lower.</param>
/// <param name="MaxDecimals">Most decimals a stopwatch gives; more are refused.</param>
/// <param name="MaxSeconds">Times above are absurd and refused.</param>
/// <param name="SuggestedCapSeconds">Cap offered as default, seconds; for the seven-task test 120, which stands in one summary only. The session records the one in force.</param>
/// <param name="HandOrder">Which hand goes first within each task.</param>
/// <param name="Tasks">In standard order.</param>
/// <param name="Totals">Sums that exist.</param>
/// <param name="Room">Table, chair and general set-up lengths.</param>
/// <param name="Precautions">Asked before the test.</param>
/// <param name="Departures">Offered for trials.</param>
public sealed record Instrument(
    string Id,
    string Version,
    string Title,
    string Unit,
    Direction Better,
    int MaxDecimals,
    decimal MaxSeconds,
    decimal SuggestedCapSeconds,
    ImmutableArray<HandRole> HandOrder,
    ImmutableArray<TaskDefinition> Tasks,
    ImmutableArray<TotalDefinition> Totals,
    ImmutableArray<Measure> Room,
    ImmutableArray<Precaution> Precautions,
    ImmutableArray<Departure> Departures)
{
    /// <summary>The task with this id, or null if the instrument has none.</summary>
    public TaskDefinition? FindTask(string id) => Tasks.FirstOrDefault(t => t.Id == id);
}
