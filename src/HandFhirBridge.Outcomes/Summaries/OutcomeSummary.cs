using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Statistics;

namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Answer to a question about gathered results. It describes groups and judges no patient.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Groups">Groups that are shown, in order of their names.</param>
/// <param name="HeldBack">Groups not shown because they are small, or because a small one could be worked out from them.</param>
/// <param name="Difference">Whether the groups' times differ; null unless one task and one way to tell groups apart was asked for.</param>
/// <param name="Sources">Sources the results were gathered from.</param>
/// <param name="Norms">Norms behind z, each <c>set version (evidence)</c>.</param>
/// <param name="Thresholds">Measurement errors behind the shares, in words.</param>
/// <param name="Demonstration">True if any norm is for demonstration only.</param>
public sealed record OutcomeSummary(
    SummaryQuestion Question,
    ImmutableArray<SummaryGroup> Groups,
    int HeldBack,
    LogRank? Difference,
    ImmutableArray<string> Sources,
    ImmutableArray<string> Norms,
    ImmutableArray<string> Thresholds,
    bool Demonstration)
{
    /// <summary>Shown with every summary.</summary>
    public const string Caution =
        "Figures of groups support and never replace the judgement of a licensed clinician; they are not for judging one patient. "
        + "Who is tested again, and when, is no chance: a change over time is not the effect of a treatment.";

    /// <summary>Gathered resources that fit no table, and so are in no figure. Not of this question alone: of which group they would be is not known.</summary>
    public int LeftOut { get; init; }
}
