using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>SNOMED CT concepts we write. Displays are left out on purpose: the code carries the meaning, and a display of another edition could be refused.</summary>
/// <remarks>Meanings were compared in several public implementations, not in SNOMED CT itself; see docs/mapping.md.</remarks>
internal static class SnomedCodes
{
    public const string LeftHand = "85151006";
    public const string RightHand = "78791008";

    /// <summary>Hand without a side; stands with the laterality extension.</summary>
    public const string AnyHand = "85562004";

    public const string HandednessQuestion = "57427004";
    public const string RightHanded = "46669005";
    public const string LeftHanded = "87683000";
    public const string Ambidextrous = "23088002";

    public static string Of(Hand hand) => hand == Hand.Left ? LeftHand : RightHand;

    public static string Of(Handedness handedness) => handedness switch
    {
        Handedness.Left => LeftHanded,
        Handedness.Right => RightHanded,
        Handedness.Ambidextrous => Ambidextrous,
        _ => throw new ArgumentOutOfRangeException(nameof(handedness), handedness, null),
    };
}
