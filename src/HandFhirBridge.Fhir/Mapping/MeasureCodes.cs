using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Codes of <see cref="CodeSystems.Measure"/>: what is measured, with the hand in the code, because a query by code must never mix hands.</summary>
public static class MeasureCodes
{
    /// <summary>The report of one sitting.</summary>
    public const string Report = "seven-task-report";

    /// <summary>The question about handedness, for sites without a SNOMED CT licence.</summary>
    public const string Handedness = "handedness";

    /// <summary>The counted trial of a task with a hand.</summary>
    public static string Trial(string task, Hand hand) => $"{task}-{WireName.Of(hand)}";

    /// <summary>An attempt at a task with a hand that does not count.</summary>
    public static string UncountedAttempt(string task, Hand hand) => Trial(task, hand) + "-uncounted";

    /// <summary>A total of a hand.</summary>
    public static string Total(string totalId, Hand hand) => $"{totalId}-{WireName.Of(hand)}";

    /// <summary>The panel of a hand.</summary>
    public static string Panel(Hand hand) => $"panel-{WireName.Of(hand)}";
}
