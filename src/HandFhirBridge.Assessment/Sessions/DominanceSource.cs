namespace HandFhirBridge.Assessment.Sessions;

/// <summary>How handedness became known.</summary>
public enum DominanceSource
{
    /// <summary>The patient said so.</summary>
    Stated,

    /// <summary>The therapist saw which hand writes.</summary>
    Observed,

    /// <summary>A laterality inventory was scored.</summary>
    Inventory,
}
