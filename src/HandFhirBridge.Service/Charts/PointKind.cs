namespace HandFhirBridge.Service.Charts;

/// <summary>What a point of a course is.</summary>
public enum PointKind
{
    /// <summary>A plain time.</summary>
    Time,

    /// <summary>Stopped at the cap: longer than the seconds given.</summary>
    Bound,

    /// <summary>No time; drawn as such, never as zero.</summary>
    NoTime,
}
