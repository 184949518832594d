namespace HandFhirBridge.Assessment.Sessions;

/// <summary>The patient's handedness as established at the table.</summary>
public enum Handedness
{
    /// <summary>Left-handed.</summary>
    Left,

    /// <summary>Right-handed.</summary>
    Right,

    /// <summary>No dominant hand; the therapist names the hand tested as dominant.</summary>
    Ambidextrous,
}
