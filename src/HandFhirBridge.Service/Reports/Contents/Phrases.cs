using System.Globalization;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Figures and codes of a report as people read them.</summary>
internal static class Phrases
{
    /// <summary>With its sign; a true minus, which print does not lose.</summary>
    public static string Signed(decimal number) => number.ToString("+0.00;\u22120.00;0.00", CultureInfo.InvariantCulture);

    /// <summary><c>Left hand (non-dominant)</c>.</summary>
    public static string Hand(Hand hand, HandRole role) => $"{(hand == Assessment.Sessions.Hand.Left ? "Left" : "Right")} hand ({(role == HandRole.Dominant ? "dominant" : "non-dominant")})";

    public static string Total(string id) => PlainWords.Upper(Words.Of(id)) + (id == "six-task-total" ? " (without writing)" : "");

    /// <summary>The time, the bound, or why there is none.</summary>
    public static string Result(ReportRow row) => row.Outcome switch
    {
        TrialOutcome.Completed => PlainWords.Seconds(row.Seconds!.Value),
        TrialOutcome.StoppedAtCap => $"more than {PlainWords.Seconds(row.Seconds!.Value)}",
        _ => "no time",
    };

    /// <summary>What the result says, with the reason where it says nothing.</summary>
    public static string Judgement(ReportRow row) => row switch
    {
        { Judgement: Assessment.Scoring.Judgement.Slow } => "SLOW: beyond 2 SD",
        { Judgement: Assessment.Scoring.Judgement.WithinNorm } => "within 2 SD",
        { Outcome: TrialOutcome.StoppedAtCap } => "NOT COMPLETED: stopped at the cap",
        { Outcome: not TrialOutcome.Completed } => $"NOT COMPLETED: {Words.Of(row.Outcome)}{(row.Reason is null ? "" : $", {row.Reason}")}",
        { WhyNotJudged: NoJudgement.SexUnknown } => "not judged: sex for the norm unknown",
        { WhyNotJudged: NoJudgement.AgeOutsideNorms } => "not judged: no norm for this age",
        _ => "not judged: no norm",
    };

    public static string Norm(ReportRow row, SexForNorm sex) => row.Norms.IsEmpty ? "none" : string.Join("; ", row.Norms.Select(n => string.Create(
        CultureInfo.InvariantCulture,
        $"{n.Mean} s ({n.StandardDeviation}){(sex == SexForNorm.Unknown ? n.Sex == SexForNorm.Female ? " women" : " men" : "")}")));

    /// <summary>How a norm was obtained, and what that is worth.</summary>
    public static string Evidence(Evidence evidence) => evidence switch
    {
        Assessment.Norms.Evidence.SiteDoubleEntry => "entered from the source by two people of the clinic, who agree cell by cell",
        Assessment.Norms.Evidence.OneReprintRead => "read in one reprint, not in the original table; a misprint there would not have been noticed",
        Assessment.Norms.Evidence.AbstractRead => "read in the abstract of the source only; the table behind it was not seen",
        Assessment.Norms.Evidence.Recalled => "FROM MEMORY, no copy was read; for demonstration only and not for any decision about a patient",
        _ => throw new ArgumentOutOfRangeException(nameof(evidence), evidence, null),
    };
}
