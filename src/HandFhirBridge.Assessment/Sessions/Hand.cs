namespace HandFhirBridge.Assessment.Sessions;

/// <summary>The hand itself, whatever its role.</summary>
public enum Hand
{
    /// <summary>Left hand.</summary>
    Left,

    /// <summary>Right hand.</summary>
    Right,
}
