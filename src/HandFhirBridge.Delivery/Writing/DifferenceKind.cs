namespace HandFhirBridge.Delivery.Writing;

/// <summary>How what a target keeps differs from what was sent.</summary>
public enum DifferenceKind
{
    /// <summary>An element is not there.</summary>
    Dropped,

    /// <summary>A number of the same size has lost or gained digits: <c>12.40</c> became <c>12.4</c>.</summary>
    Rounded,

    /// <summary>Another value.</summary>
    Changed,
}
