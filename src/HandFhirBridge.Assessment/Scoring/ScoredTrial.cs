using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>A trial with what scoring made of it.</summary>
/// <param name="Trial">The trial as it happened.</param>
/// <param name="RunOrder">1-based place in the order in which all trials of the session ran.</param>
/// <param name="Attempt">1-based place among the attempts at this task with this hand.</param>
/// <param name="Role">Hand role in this session.</param>
/// <param name="Norms">Norms to show: one for a known sex, both for an unknown one, none where none applies or the attempt is not counted.</param>
/// <param name="Score">Score; null exactly when <paramref name="WhyNotJudged"/> is set.</param>
/// <param name="WhyNotJudged">Why there is no score; null if there is one. An attempt that is not counted carries <see cref="NoJudgement.NoTime"/>.</param>
public sealed record ScoredTrial(
    Trial Trial,
    int RunOrder,
    int Attempt,
    HandRole Role,
    ImmutableArray<NormComparison> Norms,
    TrialScore? Score,
    NoJudgement? WhyNotJudged);
