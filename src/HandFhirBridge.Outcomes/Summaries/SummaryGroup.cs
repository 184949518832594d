using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Results of one group.</summary>
/// <param name="Key">Its values, in the order of the question's dimensions.</param>
/// <param name="Persons">Patients; one seen at two sources counts twice.</param>
/// <param name="Trials">Counted trials.</param>
/// <param name="Stopped">Of them stopped at the cap: in the survival estimate as censored times, in no other figure.</param>
/// <param name="WithoutTime">Of them without a time (unable, declined, not given, void): in no figure.</param>
/// <param name="Times">Seconds of the completed trials; null if there are none.</param>
/// <param name="Survival">Kaplan–Meier estimate over completed and stopped trials; null if there are none.</param>
/// <param name="Z">z of the trials that were judged; null if there are none or they rest on unlike norms.</param>
/// <param name="UnlikeNorms">True if z is not given because the trials rest on norms of different set, version or evidence.</param>
/// <param name="Changes">Change over time.</param>
public sealed record SummaryGroup(
    ImmutableArray<string> Key,
    int Persons,
    int Trials,
    int Stopped,
    int WithoutTime,
    Description? Times,
    KaplanMeier? Survival,
    Description? Z,
    bool UnlikeNorms,
    ImmutableArray<SummaryChange> Changes)
{
    /// <summary>Completed trials.</summary>
    public int Completed => Trials - Stopped - WithoutTime;
}
