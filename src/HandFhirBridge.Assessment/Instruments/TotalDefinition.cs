using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A sum over tasks. Totals over different tasks are different quantities and never share a name or a norm.</summary>
/// <param name="Id">Stable id, for example <c>seven-task-total</c>.</param>
/// <param name="Title">Name with the number of tasks in it.</param>
/// <param name="Tasks">Ids of the tasks summed; the total exists only if each was completed.</param>
public sealed record TotalDefinition(string Id, string Title, ImmutableArray<string> Tasks);
