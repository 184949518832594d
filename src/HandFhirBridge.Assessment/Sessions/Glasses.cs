namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Whether the patient saw as well as usual.</summary>
public enum Glasses
{
    /// <summary>Needs none for near work.</summary>
    NotNeeded,

    /// <summary>Needed and worn.</summary>
    Worn,

    /// <summary>Needed but not worn: departs from the standard.</summary>
    NeededNotWorn,
}
