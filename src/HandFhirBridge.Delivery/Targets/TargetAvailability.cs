namespace HandFhirBridge.Delivery.Targets;

/// <summary>Whether a target can be reached, as the last requests to it showed.</summary>
public enum TargetAvailability
{
    /// <summary>Nothing was asked of it since the start.</summary>
    Unknown,

    /// <summary>It answered last time, or failed too seldom to be called down.</summary>
    Up,

    /// <summary>It failed <see cref="TargetContact.FailuresForDown"/> times in a row or more, or has not answered at all since the start.</summary>
    Down,
}
