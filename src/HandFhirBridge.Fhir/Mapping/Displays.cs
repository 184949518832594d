using System.Collections.Frozen;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Words for our own codes that no instrument's definition names, exactly as the code systems of the package say them; a code that is not listed has none.</summary>
internal static class Displays
{
    private static readonly FrozenDictionary<(string System, string Code), string> Table = new Dictionary<(string, string), string>
    {
        [(CodeSystems.Measure, MeasureCodes.Report)] = "Seven-task hand function test report",
        [(CodeSystems.Measure, MeasureCodes.Handedness)] = "Handedness",
        [(CodeSystems.Hand, "left")] = "Left hand",
        [(CodeSystems.Hand, "right")] = "Right hand",
        [(CodeSystems.HandRole, "dominant")] = "Dominant hand",
        [(CodeSystems.HandRole, "non-dominant")] = "Non-dominant hand",
        [(CodeSystems.Handedness, "left")] = "Left handed",
        [(CodeSystems.Handedness, "right")] = "Right handed",
        [(CodeSystems.Handedness, "ambidextrous")] = "Ambidextrous",
        [(CodeSystems.Component, ComponentCodes.HandRole)] = "Hand role",
        [(CodeSystems.Component, ComponentCodes.ZScore)] = "z-score",
        [(CodeSystems.Component, ComponentCodes.PercentOfNorm)] = "Percent of norm mean",
        [(CodeSystems.Component, ComponentCodes.Departure)] = "Departure",
        [(CodeSystems.Component, ComponentCodes.LateralityQuotient)] = "Laterality quotient",
        [(CodeSystems.Component, ComponentCodes.TestedAsDominant)] = "Hand tested as dominant",
        [(CodeSystems.Precaution, "lifting-restriction")] = "Lifting restriction",
        [(CodeSystems.Precaution, "recent-tendon-repair")] = "Recent tendon repair",
        [(CodeSystems.Precaution, "unhealed-fracture")] = "Unhealed fracture",
        [(CodeSystems.Precaution, "open-wound")] = "Open wound",
        [(CodeSystems.Precaution, "recent-nerve-or-joint-surgery")] = "Recent nerve or joint surgery",
        [(CodeSystems.Precaution, "pain-limits-use")] = "Pain limits use of the hand",
        [(CodeSystems.Setup, "worn")] = "Worn",
        [(CodeSystems.Setup, "not-needed")] = "Not needed",
        [(CodeSystems.Setup, "needed-not-worn")] = "Needed but not worn",
        [(CodeSystems.Setup, "yes")] = "Yes",
        [(CodeSystems.Setup, "no")] = "No",
        [(CodeSystems.Setup, "not-known")] = "Not known",
        [(CodeSystems.PerformerRole, "occupational-therapist")] = "Occupational therapist",
        [(CodeSystems.PerformerRole, "hand-therapist")] = "Hand therapist",
        [(CodeSystems.PerformerRole, "physical-therapist")] = "Physical therapist",
        [(CodeSystems.PerformerRole, "occupational-therapy-assistant")] = "Occupational therapy assistant",
        [(CodeSystems.PerformerRole, "student-under-supervision")] = "Student under supervision",
        [(CodeSystems.PerformerRole, "other")] = "Other",
        [(CodeSystems.DominanceSource, "stated")] = "Stated",
        [(CodeSystems.DominanceSource, "observed")] = "Observed",
        [(CodeSystems.DominanceSource, "inventory")] = "Inventory",
        [(CodeSystems.Evidence, "site-double-entry")] = "Entered twice by the site",
        [(CodeSystems.Evidence, "one-reprint-read")] = "Read in one reprint",
        [(CodeSystems.Evidence, "abstract-read")] = "Read in the abstract",
        [(CodeSystems.Evidence, "recalled")] = "Recalled from memory",
        [(CodeSystems.Gender, "female")] = "Female",
        [(CodeSystems.Gender, "male")] = "Male",
        [(CodeSystems.Gender, "unknown")] = "Unknown",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, string> Totals = new Dictionary<string, string>
    {
        ["seven-task-total"] = "Seven-task total",
        ["six-task-total"] = "Six-task total",
    }.ToFrozenDictionary();

    /// <summary>Display of a code, or null if none is listed.</summary>
    public static string? Of(string system, string code) => Table.GetValueOrDefault((system, code));

    /// <summary>Total in words; its id if it has none.</summary>
    public static string Total(string totalId) => Totals.GetValueOrDefault(totalId, totalId);
}
