namespace HandFhirBridge.Delivery.Targets;

/// <summary>What follows when a target keeps something other than what was sent.</summary>
public enum DifferenceAction
{
    /// <summary>The session counts as delivered; the differences stand in the attempt.</summary>
    Record,

    /// <summary>The session waits for a person, who lets it stand by retrying it.</summary>
    Hold,
}
