using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Change of a group's times from the first session to a later one, each pair one person's trials of one task with one hand.</summary>
/// <param name="Until">The later session: <c>last</c>, <c>6 weeks</c>, <c>12 weeks</c>.</param>
/// <param name="Pairs">The change; null if fewer pairs than the smallest group have two completed trials.</param>
/// <param name="LeftOut">Pairs in which a trial was stopped or has no time: their change is not known.</param>
/// <param name="Judged">Pairs for whose task and hand role a measurement error is set.</param>
/// <param name="Faster">Of them faster by more than the minimal detectable change.</param>
/// <param name="Slower">Of them slower by more than it.</param>
public sealed record SummaryChange(string Until, GroupChange? Pairs, int LeftOut, int Judged, int Faster, int Slower);
