using System.Globalization;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Norms in words: never without set, version and evidence.</summary>
internal static class NormWording
{
    /// <summary>Everything about a norm, as the text of a reference range.</summary>
    public static string Sentence(NormComparison norm) => $"Norm {Figures(norm)} ({Group(norm.Cell)}); {Origin(norm)}.{Mark(norm)}";

    /// <summary>Mean and SD.</summary>
    public static string Figures(NormComparison norm) =>
        string.Create(CultureInfo.InvariantCulture, $"mean {norm.Cell.Mean} s, SD {norm.Cell.StandardDeviation} s");

    /// <summary>Set, version and evidence.</summary>
    public static string Origin(NormComparison norm) => $"{norm.NormSetId} version {norm.NormSetVersion}; evidence: {Evidence(norm)}";

    /// <summary>Who the norm was taken from.</summary>
    public static string Group(NormCell cell)
    {
        var size = cell.N is { } n ? string.Create(CultureInfo.InvariantCulture, $", n = {n}") : "";
        return string.Create(
            CultureInfo.InvariantCulture, $"{WireName.Of(cell.Sex)}, {Wording.Role(cell.Role)} hand, {cell.AgeMin} to {cell.AgeMax} years{size}");
    }

    /// <summary>The word DEMONSTRATION for a norm from memory, else nothing.</summary>
    public static string Mark(NormComparison norm) => norm.DemonstrationOnly ? " DEMONSTRATION: not for patients." : "";

    /// <summary>What a judgement says.</summary>
    public static string Judgement(TrialScore score) => score.Judgement == Assessment.Scoring.Judgement.Slow
        ? "slower than the norm mean by more than 2 SD"
        : "within 2 SD of the norm mean";

    /// <summary>Why a counted trial carries no score.</summary>
    public static string WhyNotJudged(NoJudgement reason) => reason switch
    {
        NoJudgement.NoTime => "not judged: no plain time",
        NoJudgement.SexUnknown => "not judged: sex for the norm unknown",
        NoJudgement.AgeOutsideNorms => "not judged: age outside every usable norm",
        NoJudgement.NoNorm => "not judged: no usable norm",
        _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, null),
    };

    private static string Evidence(NormComparison norm) => PlainWords.Lower(Displays.Of(CodeSystems.Evidence, WireName.Of(norm.Cell.Evidence))!);
}
