namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Where the seconds of a trial come from.</summary>
public enum TimeSource
{
    /// <summary>Taken over from a timer by software.</summary>
    Timer,

    /// <summary>Read from a stopwatch and typed.</summary>
    Manual,
}
