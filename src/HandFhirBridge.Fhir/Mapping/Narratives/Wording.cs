using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Plain words for what stands in codes. Hands are always spelled out.</summary>
internal static class Wording
{
    public const string Demonstration = "DEMONSTRATION: compared with a norm from memory; not for patients.";

    public const string Caution = "These results support and do not replace clinical judgement and local protocols; they are not a diagnosis.";

    public static string Role(HandRole role) => role == HandRole.Dominant ? "dominant" : "non-dominant";

    /// <summary><c>left hand (non-dominant)</c>.</summary>
    public static string Hand(Hand hand, HandRole role) => $"{WireName.Of(hand)} hand ({Role(role)})";

    public static string Seconds(decimal seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds} s");

    /// <summary>What came of an attempt: the time, the bound, or why there is none.</summary>
    public static string Result(Trial trial) => trial.Outcome switch
    {
        TrialOutcome.Completed => Seconds(trial.Seconds!.Value),
        TrialOutcome.StoppedAtCap => $"more than {Seconds(trial.Seconds!.Value)} (stopped at the cap)",
        _ => WithReason(Outcome(trial.Outcome), trial.Reason),
    };

    public static string Outcome(TrialOutcome outcome) => outcome switch
    {
        TrialOutcome.Completed => "completed",
        TrialOutcome.StoppedAtCap => "stopped at the cap",
        TrialOutcome.Unable => "unable",
        TrialOutcome.Declined => "declined",
        TrialOutcome.NotGiven => "not given",
        TrialOutcome.Void => "void",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, null),
    };

    /// <summary>The task as it stands within a sentence.</summary>
    public static string Task(SessionContext context, string task) => Lower(context.Words.Task(task));

    public static string Departures(SessionContext context, Trial trial) =>
        string.Join("; ", trial.Departures.Select(departure => Lower(context.Words.Departure(departure))));

    public static string ZScore(decimal z) => z.ToString("0.00", CultureInfo.InvariantCulture);

    public static string Percent(decimal percent) => percent.ToString("0.0", CultureInfo.InvariantCulture) + " %";

    public static string Day(DateTimeOffset moment) => moment.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Moment(DateTimeOffset moment) => moment.ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    public static string Length(Length length) => string.Create(CultureInfo.InvariantCulture, $"{length.Value} {WireName.Of(length.Unit)}");

    public static string Handedness(Dominance dominance) => dominance.Handedness == Assessment.Sessions.Handedness.Ambidextrous
        ? $"ambidextrous, tested with the {WireName.Of(dominance.TestedAsDominant)} hand as dominant"
        : $"{WireName.Of(dominance.Handedness)}-handed";

    /// <summary><c>a, b and c</c>.</summary>
    public static string List(IReadOnlyList<string> parts) => parts.Count <= 1
        ? string.Concat(parts)
        : $"{string.Join(", ", parts.Take(parts.Count - 1))} and {parts[^1]}";

    /// <summary>A sentence with a full stop; what a person wrote may already end with one.</summary>
    public static string Sentence(string text) => text.TrimEnd() is [.., '.' or '!' or '?'] ended ? ended : text.TrimEnd() + ".";

    public static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    public static string Lower(string text) => char.ToLowerInvariant(text[0]) + text[1..];

    private static string WithReason(string outcome, string? reason) => reason is null ? outcome : $"{outcome}: {reason}";
}
