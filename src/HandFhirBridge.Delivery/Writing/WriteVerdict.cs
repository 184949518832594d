namespace HandFhirBridge.Delivery.Writing;

/// <summary>What an answer says of a write.</summary>
public enum WriteVerdict
{
    /// <summary>Every resource is stored.</summary>
    Stored,

    /// <summary>Some are stored and some are not.</summary>
    StoredInPart,

    /// <summary>Success is claimed, and not said of what.</summary>
    Unclear,

    /// <summary>No success is claimed.</summary>
    NotStored,
}
