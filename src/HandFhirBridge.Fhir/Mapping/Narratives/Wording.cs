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

    /// <summary>What came of an attempt: the time, the bound, or why there is none.</summary>
    public static string Result(Trial trial) => trial.Outcome switch
    {
        TrialOutcome.Completed => PlainWords.Seconds(trial.Seconds!.Value),
        TrialOutcome.StoppedAtCap => $"more than {PlainWords.Seconds(trial.Seconds!.Value)} (stopped at the cap)",
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
    public static string Task(InstrumentWords words, string task) => PlainWords.Lower(words.Task(task));

    public static string Departures(InstrumentWords words, Trial trial) =>
        string.Join("; ", trial.Departures.Select(departure => PlainWords.Lower(words.Departure(departure))));

    public static string ZScore(decimal z) => z.ToString("0.00", CultureInfo.InvariantCulture);

    public static string Length(Length length) => string.Create(CultureInfo.InvariantCulture, $"{length.Value} {WireName.Of(length.Unit)}");

    private static string WithReason(string outcome, string? reason) => reason is null ? outcome : $"{outcome}: {reason}";
}
