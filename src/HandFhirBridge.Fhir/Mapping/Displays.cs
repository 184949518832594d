using System.Collections.Frozen;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Words for our own codes, exactly as the code systems of the package say them; a code that is not listed has none.</summary>
internal static class Displays
{
    private static readonly FrozenDictionary<(string System, string Code), string> Table = new Dictionary<(string, string), string>
    {
        [(CodeSystems.Measure, MeasureCodes.Report)] = "Seven-task hand function test report",
        [(CodeSystems.Measure, MeasureCodes.Handedness)] = "Handedness",
        [(CodeSystems.Task, "writing")] = "Writing",
        [(CodeSystems.Task, "card-turning")] = "Card turning",
        [(CodeSystems.Task, "small-common-objects")] = "Picking up small common objects",
        [(CodeSystems.Task, "simulated-feeding")] = "Simulated feeding",
        [(CodeSystems.Task, "stacking-checkers")] = "Stacking checkers",
        [(CodeSystems.Task, "large-light-objects")] = "Moving large light objects",
        [(CodeSystems.Task, "large-heavy-objects")] = "Moving large heavy objects",
        [(CodeSystems.Material, "pen")] = "Pen",
        [(CodeSystems.Material, "writing-paper")] = "Unruled writing paper",
        [(CodeSystems.Material, "sentence-card")] = "Sentence card",
        [(CodeSystems.Material, "card-stand")] = "Card stand",
        [(CodeSystems.Material, "index-card")] = "Index card",
        [(CodeSystems.Material, "empty-can")] = "Empty can",
        [(CodeSystems.Material, "paper-clip")] = "Paper clip",
        [(CodeSystems.Material, "bottle-cap")] = "Bottle cap",
        [(CodeSystems.Material, "coin")] = "Coin",
        [(CodeSystems.Material, "kidney-bean")] = "Kidney bean",
        [(CodeSystems.Material, "teaspoon")] = "Teaspoon",
        [(CodeSystems.Material, "checker")] = "Checker",
        [(CodeSystems.Material, "large-can-empty")] = "Large can, empty",
        [(CodeSystems.Material, "large-can-filled")] = "Large can, filled",
        [(CodeSystems.Material, "board")] = "Board",
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
        [(CodeSystems.Departure, "order-changed")] = "Order changed",
        [(CodeSystems.Departure, "practice-allowed")] = "Practice allowed",
        [(CodeSystems.Departure, "instructions-repeated")] = "Instructions repeated",
        [(CodeSystems.Departure, "item-dropped")] = "Item dropped",
        [(CodeSystems.Departure, "layout-differed")] = "Layout differed",
        [(CodeSystems.Departure, "item-replaced")] = "Item replaced",
        [(CodeSystems.Departure, "other-hand-helped")] = "Other hand helped",
        [(CodeSystems.Departure, "orthosis-worn")] = "Orthosis worn",
        [(CodeSystems.Departure, "position-changed")] = "Position changed",
        [(CodeSystems.Departure, "pain-reported")] = "Pain reported",
        [(CodeSystems.Departure, "interrupted")] = "Interrupted",
        [(CodeSystems.Departure, "timer-started-late")] = "Timer started late",
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

    /// <summary>Task in words; its id if it has none.</summary>
    public static string Task(string task) => Of(CodeSystems.Task, task) ?? task;

    /// <summary>Total in words; its id if it has none.</summary>
    public static string Total(string totalId) => Totals.GetValueOrDefault(totalId, totalId);

    /// <summary>Display of a trial's code.</summary>
    public static string Trial(string task, Hand hand) => $"{Task(task)}, {WireName.Of(hand)} hand";

    /// <summary>Display of the code of an attempt that does not count.</summary>
    public static string UncountedAttempt(string task, Hand hand) => $"{Trial(task, hand)}, attempt not counted";

    /// <summary>Display of a total's code.</summary>
    public static string Total(string totalId, Hand hand) => $"{Total(totalId)}, {WireName.Of(hand)} hand";

    /// <summary>Display of a panel's code.</summary>
    public static string Panel(Hand hand) => $"Seven-task hand function test, {WireName.Of(hand)} hand";
}
